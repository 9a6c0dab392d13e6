import { restOrdered, restProblem } from '../../src/core/guidance/rest-problem.ts';
import { orderOfRest } from '../../src/core/order/rest-order.ts';
import type { Job } from '../../src/core/job/job.ts';
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
