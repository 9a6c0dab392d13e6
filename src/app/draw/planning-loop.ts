import { effect, type ReadonlySignal, signal } from '@preact/signals';
import type { Job } from '../../core/job/job.ts';
import type { JobPlanResult } from '../../core/plan/plan-job.ts';
import type { PlannedJob } from '../../core/plan/planned-job.ts';
import type { PlanningProblem } from './desk.ts';
import { planningProblem } from './planning-problem.ts';

/** Plans a job; rejects when told to stop. */
export type PlanJob = (job: Job, onProgress: (fraction: number) => void, stop: AbortSignal) => Promise<JobPlanResult>;

export interface PlanningLoop {
  readonly planned: ReadonlySignal<PlannedJob | null>;
  readonly problem: ReadonlySignal<PlanningProblem | null>;
  readonly busyFraction: ReadonlySignal<number | null>;
  dispose(): void;
}

export interface PlanningLoopOptions {
  readonly planJob: PlanJob;
  /** Calls back after a while, as setTimeout does; returns what takes the call back. */
  readonly after: (milliseconds: number, call: () => void) => () => void;
}

/** Long enough to let a word be typed, short enough to seem at once. */
const REST_MILLISECONDS = 120;

/** Keeps a job planned: each change is planned once typing rests, and a newer change stops what is being planned. */
export function createPlanningLoop(job: ReadonlySignal<Job>, { planJob, after }: PlanningLoopOptions): PlanningLoop {
  const planned = signal<PlannedJob | null>(null);
  const problem = signal<PlanningProblem | null>(null);
  const busyFraction = signal<number | null>(null);
  let wantedKey = '';
  let cancelTimer: (() => void) | null = null;
  let stopper: AbortController | null = null;

  const run = async (wanted: Job): Promise<void> => {
    const mine = new AbortController();
    stopper = mine;
    busyFraction.value = 0;
    let outcome: JobPlanResult;
    try {
      outcome = await planJob(wanted, (fraction) => !mine.signal.aborted && (busyFraction.value = fraction), mine.signal);
    } catch (error) {
      if (mine.signal.aborted) return;
      stopper = null;
      busyFraction.value = null;
      problem.value = {
        title: `The planner broke off: ${error instanceof Error ? error.message : String(error)}.`,
        remedies: ['Change anything to try again.'],
      };
      return;
    }
    if (mine.signal.aborted) return;
    stopper = null;
    busyFraction.value = null;
    problem.value = outcome.ok ? null : planningProblem(outcome.problem, wanted);
    // The job may have changed since in what the plan does not depend on, such as its tanks.
    if (outcome.ok) planned.value = { job: job.peek(), ...outcome.value };
  };

  const stopWatching = effect(() => {
    const now = job.value;
    const key = planKey(now);
    if (key === wantedKey) {
      const last = planned.peek();
      if (last !== null && stopper === null && cancelTimer === null) planned.value = { ...last, job: now };
      return;
    }
    wantedKey = key;
    stopper?.abort();
    stopper = null;
    cancelTimer?.();
    cancelTimer = after(planned.peek() === null ? 0 : REST_MILLISECONDS, () => {
      cancelTimer = null;
      void run(job.peek());
    });
  });
  return {
    planned,
    problem,
    busyFraction,
    dispose() {
      stopWatching();
      cancelTimer?.();
      stopper?.abort();
    },
  };
}

/** Everything of a job that its plan depends on. */
function planKey({ text, site, facingDegreesTrue, viewElevationDegrees, readTime, layer, letters, winds, ships, options }: Job): string {
  const flown = ships.map(({ trueAirspeedKnots, writingBankDegrees, turningBankDegrees, rollRateDegreesPerSecond, smokeOilPoundsPerMinute }) => [
    trueAirspeedKnots,
    writingBankDegrees,
    turningBankDegrees,
    rollRateDegreesPerSecond,
    smokeOilPoundsPerMinute,
  ]);
  const place = [site.latitudeDegrees, site.longitudeDegrees, site.elevationFeet];
  return JSON.stringify([text, place, facingDegreesTrue, viewElevationDegrees, readTime, layer, letters, winds, flown, options]);
}
