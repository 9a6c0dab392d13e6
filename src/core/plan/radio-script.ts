import type { Job } from '../job/job.ts';
import type { JobPlan } from './plan-job.ts';
import { unitText } from '../text/unit-text.ts';

/** One call of the flight: who says what, and when. */
export interface RadioCall {
  readonly step: 'check-in' | 'time-hack' | 'time-check' | 'join-up' | 'first-smoke' | 'break' | 'last-smoke' | 'knock-it-off';
  readonly from: string;
  /** Seconds after the first smoke, before it negative; null where nothing but the moment itself says when. */
  readonly atSeconds: number | null;
  /** What is said; blanks to be filled in the air stand as underscores. */
  readonly words: string;
}

/** As units are said. */
const SPOKEN: Readonly<Record<string, string>> = {
  ft: 'feet',
  m: 'metres',
  kt: 'knots',
  'km/h': 'kilometres an hour',
  mph: 'miles an hour',
  'm/s': 'metres a second',
};

/** Ships check in so long before the first smoke, and the clocks are started so long before it (common practice, no source). */
const CHECK_IN_SECONDS = -1200;
const HACK_SECONDS = -600;
/** A hack pressed late shows in every ship's countdown, while there is still time for a new one. */
/** When the lead calls the time check, since the datum: all are on their circles by then. */
export const TIME_CHECK_SECONDS = -300;
const ESTABLISHED_SECONDS = -120;

/**
 * The calls of a flight in their order, with the job's own names, words, heights and clock times. Plain words: the
 * pilots and the controller may agree on others (common practice, no source).
 *
 * @param clock of a moment in milliseconds, with its zone
 * @param units that heights and winds are called in; feet and knots unless others are chosen
 */
export function radioScript(job: Job, { plan, air, readSeconds }: JobPlan, clock: (milliseconds: number) => string, units = unitText()): RadioCall[] {
  const datumMilliseconds = Date.parse(job.readTime) - readSeconds * 1000;
  const names = plan.ships.map(({ shipIndex }) => job.ships[shipIndex]?.name ?? '');
  const [lead = 'Lead', ...wing] = names;
  const height = (stepMetres: number): string =>
    `${Math.round(units.height.of(air.layerHeightMetres + stepMetres))} ${SPOKEN[units.height.unit] ?? units.height.unit}`;
  const calls: RadioCall[] = [
    {
      step: 'check-in',
      from: lead,
      atSeconds: CHECK_IN_SECONDS,
      words:
        wing.length === 0 ? `${lead}, checking in for ${job.text.replaceAll('\n', ' ')}.` : `Check in. ${wing.map((name) => `\u201c${name}.\u201d`).join(' ')}`,
    },
    {
      step: 'time-hack',
      from: lead,
      atSeconds: HACK_SECONDS,
      words: `First smoke at ${clock(datumMilliseconds)}. Time hack in five, four, three, two, one, hack: ${-HACK_SECONDS / 60} minutes to first smoke.`,
    },
  ];
  if (wing.length > 0)
    calls.push({
      step: 'time-check',
      from: lead,
      atSeconds: TIME_CHECK_SECONDS,
      words: `Time check: ${-TIME_CHECK_SECONDS / 60} minutes to first smoke, now. ${wing.map((name) => `\u201c${name}, checks.\u201d`).join(' ')} Whose screen is 3 seconds off or more says so: new hack.`,
    });
  for (const ship of plan.ships) {
    if (ship.ownHeightStepMetres === undefined) continue;
    const name = job.ships[ship.shipIndex]?.name ?? '';
    calls.push({ step: 'join-up', from: name, atSeconds: ESTABLISHED_SECONDS, words: `${name} established, ${height(ship.ownHeightStepMetres)}.` });
  }
  calls.push({
    step: 'first-smoke',
    from: lead,
    atSeconds: 0,
    words: `${lead}, smoke on. Wind found ___ at ___ ${SPOKEN[units.speed.unit] ?? units.speed.unit}.`,
  });
  if (wing.length > 0)
    calls.push({
      step: 'break',
      from: 'whoever loses sight, cue or time',
      atSeconds: null,
      words: 'Break, break, break: own name. Smoke off, to your own height and circle; the others hold what they fly.',
    });
  const own = plan.ships[0]?.ownHeightStepMetres;
  calls.push({
    step: 'last-smoke',
    from: lead,
    atSeconds: plan.durationSeconds,
    // A ship alone leaves its layer; one of several leaves it for its own height.
    words: `${lead}, last smoke, leaving ${own === undefined ? height(0) : `for ${height(own)}`}.`,
  });
  calls.push({
    step: 'knock-it-off',
    from: 'anyone',
    atSeconds: null,
    words:
      job.knockItOffWords === ''
        ? 'Words that call it off: not entered. Smoke off, wings level, away from the others; each says it back.'
        : `${job.knockItOffWords}. Smoke off, wings level, away from the others; each says it back.`,
  });
  return calls;
}
