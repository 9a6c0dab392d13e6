import { expect, it } from 'vitest';
import { seasons } from '../../../src/core/days/season.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import type { Job, JobBooking } from '../../../src/core/job/job.ts';

const job = (readTime: string, booking: Partial<JobBooking>): Job => ({ ...DEMO_JOB, demo: false, readTime, booking: { ...DEMO_JOB.booking, ...booking } });
const outcome = (kind: 'flown' | 'dud', cause: string, costAmount: number | null): JobBooking['outcomes'][number] => ({
  atTime: '2027-06-19T10:00:00Z',
  kind,
  cause,
  calledBy: '',
  costAmount,
});

it('adds a season up by currency, never across them, and leaves the demo out', () => {
  const [later, earlier] = seasons([
    DEMO_JOB,
    job('2027-06-19T17:30:00Z', {
      feeAmount: 900,
      feeCurrency: 'USD',
      paidTime: '2027-07-01T00:00:00Z',
      outcomes: [outcome('dud', 'cloud', 80), outcome('flown', '', null)],
    }),
    job('2027-08-19T17:30:00Z', { feeAmount: 500, feeCurrency: 'EUR', sentTime: '2027-09-01T00:00:00Z', outcomes: [outcome('dud', 'cloud', 20)] }),
    job('2026-08-19T17:30:00Z', {}),
  ]);
  expect(later).toEqual({
    year: 2027,
    jobs: 2,
    outcomes: { flown: 1, dud: 2, cancelled: 0, postponed: 0 },
    causes: [{ cause: 'cloud', count: 2 }],
    fees: { USD: 900, EUR: 500 },
    paid: { USD: 900 },
    open: { EUR: 500 },
    costs: { USD: 80, EUR: 20 },
  });
  expect(earlier?.fees).toEqual({});
});
