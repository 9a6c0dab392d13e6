import { effect, type ReadonlySignal, signal } from '@preact/signals';
import { HANDS } from '../../core/letters/hand.ts';
import type { Job } from '../../core/job/job.ts';
import type { PlannedJob } from '../../core/plan/planned-job.ts';
import type { Planner } from '../planner.ts';

/** Plans of the job on the desk with one choice made otherwise, to say what that choice costs. */
export interface OtherPlans {
  /** By name of the choice; null where there is no plan, missing while it is being made. */
  readonly plans: ReadonlySignal<ReadonlyMap<string, PlannedJob | null>>;
  dispose(): void;
}

/** The choice of strokes in any order, from either end of the words: nothing is quicker. */
export const FREE_ORDER = 'free order';

/**
 * The jobs that are planned beside the one on the desk, by name of the choice: each hand, free order, and heights a
 * little off its own.
 */
export function otherJobs(job: Job): Map<string, Job> {
  const withOptions = (options: Partial<Job['options']>): Job => ({ ...job, options: { ...job.options, ...options } });
  const jobs = new Map<string, Job>();
  for (const hand of HANDS) if (hand !== job.options.hand) jobs.set(hand, withOptions({ hand }));
  const { letterOrder, progress } = job.options;
  if (letterOrder !== 'free' || progress !== 'free') jobs.set(FREE_ORDER, withOptions({ letterOrder: 'free', progress: 'free' }));
  for (const heightFeet of nearHeightsFeet(job.letters.heightFeet)) jobs.set(heightName(heightFeet), { ...job, letters: { ...job.letters, heightFeet } });
  return jobs;
}

const HEIGHT_STEP_FEET = 50;
/** Heights from a little smaller to one that still is the size that was asked for. */
const [LEAST_SHARE, GREATEST_SHARE] = [0.97, 1.1];

/** Round heights near one, in feet, that one left out. */
function nearHeightsFeet(heightFeet: number): number[] {
  const first = Math.ceil((LEAST_SHARE * heightFeet) / HEIGHT_STEP_FEET);
  const last = Math.floor((GREATEST_SHARE * heightFeet) / HEIGHT_STEP_FEET);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => (first + index) * HEIGHT_STEP_FEET).filter((feet) => feet !== heightFeet);
}

const heightName = (feet: number): string => `${feet} ft`;

/** A height near the job's own at which the words take clearly less time, or null. */
export function betterHeight(
  now: PlannedJob,
  plans: ReadonlyMap<string, PlannedJob | null>,
): { readonly heightFeet: number; readonly savedShare: number } | null {
  let best: PlannedJob | null = null;
  for (const heightFeet of nearHeightsFeet(now.job.letters.heightFeet)) {
    const other = plans.get(heightName(heightFeet)) ?? null;
    if (other !== null && other.plan.durationSeconds < (best?.plan.durationSeconds ?? Infinity)) best = other;
  }
  if (best === null) return null;
  const savedShare = 1 - best.plan.durationSeconds / now.plan.durationSeconds;
  return savedShare < LEAST_SAVED_SHARE ? null : { heightFeet: best.job.letters.heightFeet, savedShare };
}

/** Less than this is not worth another height. */
const LEAST_SAVED_SHARE = 0.03;

/**
 * Keeps such plans made, one after the other, while the desk is at rest: a job that changes stops them, so that what
 * the pilot works on never waits for them.
 *
 * @param standing the job on the desk, once it has stood for a moment, whether it could be planned or not; null while nothing is to be written
 * @param busyFraction null while no plan for the desk is being made
 */
export function createOtherPlans(standing: ReadonlySignal<Job | null>, busyFraction: ReadonlySignal<number | null>, planner: Planner): OtherPlans {
  const plans = signal<ReadonlyMap<string, PlannedJob | null>>(new Map());
  let stopper: AbortController | null = null;

  const run = async (now: Job, stop: AbortSignal): Promise<void> => {
    const found = new Map<string, PlannedJob | null>();
    for (const [name, job] of otherJobs(now)) {
      const result = await planner.plan(job, undefined, stop).catch(() => null);
      if (stop.aborted) return;
      found.set(name, result?.ok === true ? result.value : null);
      plans.value = new Map(found);
    }
  };

  const stopWatching = effect(() => {
    const now = standing.value;
    const wait = busyFraction.value !== null;
    stopper?.abort();
    stopper = null;
    if (plans.peek().size > 0) plans.value = new Map();
    if (now === null || wait) return;
    stopper = new AbortController();
    void run(now, stopper.signal);
  });
  return {
    plans,
    dispose() {
      stopWatching();
      stopper?.abort();
    },
  };
}
