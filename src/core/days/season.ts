import type { Job } from '../job/job.ts';

/** Money by currency; what has no currency stands under the empty text. */
export type Money = Readonly<Record<string, number>>;

/** What a season came to, by its jobs. The demo counts nowhere. */
export interface Season {
  readonly year: number;
  readonly jobs: number;
  readonly outcomes: Readonly<Record<'flown' | 'dud' | 'cancelled' | 'postponed', number>>;
  /** How often each cause was given for what was not flown, the most frequent first. */
  readonly causes: readonly { readonly cause: string; readonly count: number }[];
  readonly fees: Money;
  readonly paid: Money;
  /** Sent and not paid. */
  readonly open: Money;
  readonly costs: Money;
}

/** The seasons of all jobs by the year they were to be read, latest first. */
export function seasons(jobs: readonly Job[]): Season[] {
  const real = jobs.filter(({ demo }) => !demo);
  const years = [...new Set(real.map(yearOf))].toSorted((one, other) => other - one);
  return years.map((year) =>
    seasonOf(
      year,
      real.filter((job) => yearOf(job) === year),
    ),
  );
}

const yearOf = ({ readTime }: Job): number => Number(readTime.slice(0, 4));

function seasonOf(year: number, jobs: readonly Job[]): Season {
  const outcomes = { flown: 0, dud: 0, cancelled: 0, postponed: 0 };
  const causes = new Map<string, number>();
  const costs: Record<string, number> = {};
  const add = (money: Record<string, number>, currency: string, amount: number | null): void => {
    if (amount !== null) money[currency] = (money[currency] ?? 0) + amount;
  };
  const [fees, paid, open]: Record<string, number>[] = [{}, {}, {}];
  for (const { booking } of jobs) {
    for (const { kind, cause, costAmount } of booking.outcomes) {
      outcomes[kind] += 1;
      if (kind !== 'flown' && cause !== '') causes.set(cause, (causes.get(cause) ?? 0) + 1);
      add(costs, booking.feeCurrency, costAmount);
    }
    add(fees ?? {}, booking.feeCurrency, booking.feeAmount);
    if (booking.paidTime !== null) add(paid ?? {}, booking.feeCurrency, booking.feeAmount);
    else if (booking.sentTime !== null) add(open ?? {}, booking.feeCurrency, booking.feeAmount);
  }
  return {
    year,
    jobs: jobs.length,
    outcomes,
    causes: [...causes].map(([cause, count]) => ({ cause, count })).toSorted((one, other) => other.count - one.count),
    fees: fees ?? {},
    paid: paid ?? {},
    open: open ?? {},
    costs,
  };
}
