import { effect, type ReadonlySignal, signal } from '@preact/signals';
import type { Job, JobOptions } from '../../core/job/job.ts';
import type { PlannedJob } from '../../core/plan/planned-job.ts';
import type { Planner } from '../planner.ts';

/** What another plan of the same job would differ in. */
export type OtherOptions = Partial<JobOptions>;

/** Plans of the job on the desk with other options, to say what a choice costs. */
export interface OtherPlans {
  /** By what they differ in, in the order asked for; null where there is none, missing while it is being made. */
  readonly plans: ReadonlySignal<ReadonlyMap<OtherOptions, PlannedJob | null>>;
  dispose(): void;
}

/**
 * Keeps such plans made, one after the other, while the desk is at rest: a job that changes stops them, so that what
 * the pilot works on never waits for them.
 *
 * @param settled the plan on the desk, once it has stood for a moment
 * @param busyFraction null while no plan for the desk is being made
 * @param options what each of the other plans differs in; asked for the job at hand
 */
export function createOtherPlans(
  settled: ReadonlySignal<PlannedJob | null>,
  busyFraction: ReadonlySignal<number | null>,
  planner: Planner,
  options: (job: Job) => readonly OtherOptions[],
): OtherPlans {
  const plans = signal<ReadonlyMap<OtherOptions, PlannedJob | null>>(new Map());
  let stopper: AbortController | null = null;

  const run = async (now: PlannedJob, stop: AbortSignal): Promise<void> => {
    const found = new Map<OtherOptions, PlannedJob | null>();
    for (const other of options(now.job)) {
      const result = await planner.plan({ ...now.job, options: { ...now.job.options, ...other } }, undefined, stop).catch(() => null);
      if (stop.aborted) return;
      found.set(other, result?.ok === true ? result.value : null);
      plans.value = new Map(found);
    }
  };

  const stopWatching = effect(() => {
    const now = settled.value;
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
