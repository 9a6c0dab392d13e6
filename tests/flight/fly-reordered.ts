import { restOrdered, restProblem } from '../../src/core/guidance/rest-problem.ts';
import { orderOfRest, ordersByFirst } from '../../src/core/order/rest-order.ts';
import type { Job } from '../../src/core/job/job.ts';
import { cuesFrom } from '../../src/core/guidance/cues-from.ts';
import { DESK_START_MILLISECONDS } from './fly-at-desk.ts';
import { flyJob, type JobFlight } from './job-flight.ts';

/** A flight with one touch in it. */
export interface TouchedFlight extends JobFlight {
  /** From the touch to the last smoke off. */
  readonly afterTouchSeconds: number;
  /** What the order that was chosen promises to save; 0 where none was. */
  readonly promisedSeconds: number;
  readonly searchMilliseconds: number;
}

/**
 * Flies a job whose pilot redoes the stroke flown last, or skips the next one, once so many strokes are flown; what is left is
 * then ordered anew, or flown on in its order.
 */
export function flyTouched(job: Job, seed: number, touch: 'strokeRedone' | 'strokeSkipped', afterStrokes: number, anew: boolean): TouchedFlight {
  let touchedAtSeconds: number | null = null;
  let asked = false;
  let promisedSeconds = 0;
  let searchMilliseconds = 0;
  const flight = flyJob(
    job,
    seed,
    10,
    {},
    {
      touch: (state) => {
        if (state.phase !== 'repositioning') return null;
        if (touchedAtSeconds === null) {
          if (state.flight.progress.filter(({ status }) => status === 'flown').length < afterStrokes) return null;
          touchedAtSeconds = state.flight.atSeconds;
          return { kind: touch };
        }
        if (asked || !anew) return null;
        asked = true;
        const problem = restProblem(state);
        const before = performance.now();
        const order = problem === null ? null : orderOfRest(problem);
        searchMilliseconds = performance.now() - before;
        promisedSeconds = order?.savedSeconds ?? 0;
        return order === null ? null : restOrdered(order);
      },
    },
  );
  const lastOff = flight.simulation.switchings.findLast(({ on }) => !on)?.atSeconds ?? NaN;
  return { ...flight, afterTouchSeconds: lastOff - (touchedAtSeconds ?? NaN), promisedSeconds, searchMilliseconds };
}

/** A flight whose first smoke was set for a time that cannot be kept. */
export interface LateFlight extends JobFlight {
  /** The largest that the cues told before the first smoke. */
  readonly toldLateSeconds: number;
  /** The first smoke after its time, and the last after the time at which it was to end. */
  readonly beganLateSeconds: number;
  readonly endedLateSeconds: number;
  readonly promisedSeconds: number;
}

/** Flies a job whose first smoke is due so long after the flight begins; what is to write is ordered anew for the late start, or not. */
export function flyLate(job: Job, seed: number, dueSeconds: number, anew: boolean): LateFlight {
  let toldLateSeconds = 0;
  let promisedSeconds = 0;
  let asked = 0;
  const flight = flyJob(
    job,
    seed,
    10,
    {},
    {
      datum: { kind: 'at-time', wallMilliseconds: DESK_START_MILLISECONDS + 1000 * dueSeconds },
      touch: (state) => {
        if (state.phase !== 'repositioning' || state.flight.smokeCuedAtSeconds !== null) return null;
        const late = cuesFrom(state).lateSeconds ?? 0;
        toldLateSeconds = Math.max(toldLateSeconds, late);
        const problem = anew && late - asked >= 10 ? restProblem(state) : null;
        if (problem === null) return null;
        asked = late;
        const order = orderOfRest(problem);
        promisedSeconds += order?.savedSeconds ?? 0;
        return order === null ? null : restOrdered(order);
      },
    },
  );
  const { switchings } = flight.simulation;
  const firstOn = switchings.find(({ on }) => on)?.atSeconds ?? NaN;
  const lastOff = switchings.findLast(({ on }) => !on)?.atSeconds ?? NaN;
  const writing = flight.setup.hanging?.writingSeconds ?? NaN;
  return { ...flight, toldLateSeconds, beganLateSeconds: firstOn - dueSeconds, endedLateSeconds: lastOff - dueSeconds - writing, promisedSeconds };
}

/** A flight whose pilot chose which stroke comes next, or left it. */
export interface ChosenFlight extends JobFlight {
  /** From the choice to the last smoke off. */
  readonly afterChoiceSeconds: number;
  /** How much longer that was told to take than the order that stood. */
  readonly promisedSeconds: number;
}

/** Flies a job whose pilot has the next stroke but one come first, once so many strokes are flown; or looks and leaves it. */
export function flyChosen(job: Job, seed: number, afterStrokes: number, chosen: boolean): ChosenFlight {
  let choiceAtSeconds = NaN;
  let promisedSeconds = NaN;
  const flight = flyJob(
    job,
    seed,
    10,
    {},
    {
      touch: (state) => {
        if (state.phase !== 'repositioning' || !Number.isNaN(choiceAtSeconds)) return null;
        if (state.flight.progress.filter(({ status }) => status === 'flown').length < afterStrokes) return null;
        const problem = restProblem(state);
        const second = problem === null ? undefined : ordersByFirst(problem)[1];
        if (second === undefined) return null;
        choiceAtSeconds = state.flight.atSeconds;
        promisedSeconds = -second.savedSeconds;
        return chosen ? restOrdered(second, true) : null;
      },
    },
  );
  const lastOff = flight.simulation.switchings.findLast(({ on }) => !on)?.atSeconds ?? NaN;
  return { ...flight, afterChoiceSeconds: lastOff - choiceAtSeconds, promisedSeconds };
}
