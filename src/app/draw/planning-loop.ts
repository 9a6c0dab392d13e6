import { effect, type ReadonlySignal, signal } from '@preact/signals';
import type { Job } from '../../core/job/job.ts';
import { jobAir } from '../../core/job/job-air.ts';
import { planKey } from '../../core/plan/plan-key.ts';
import type { PlannedJob } from '../../core/plan/planned-job.ts';
import type { Planner, PlanningResult } from '../planner.ts';
import type { JobPlanProblem } from '../../core/plan/plan-job.ts';
import type { PlanningProblem } from '../planning-problem.ts';

export interface PlanningLoop {
  readonly planned: ReadonlySignal<PlannedJob | null>;
  readonly problem: ReadonlySignal<PlanningProblem | null>;
  readonly busyFraction: ReadonlySignal<number | null>;
  dispose(): void;
}

export interface PlanningLoopOptions {
  readonly planner: Planner;
  /** Calls back after a while, as setTimeout does; returns what takes the call back. */
  readonly after: (milliseconds: number, call: () => void) => () => void;
  /** Why there is no plan, in words and in the units chosen. */
  readonly words: (problem: JobPlanProblem, job: Job) => PlanningProblem;
}

/** Long enough to let a word be typed, short enough to seem at once. */
const REST_MILLISECONDS = 120;

/** Keeps a job planned: each change is planned once typing rests, and a newer change stops what is being planned. */
export function createPlanningLoop(job: ReadonlySignal<Job>, { planner, after, words }: PlanningLoopOptions): PlanningLoop {
  const planned = signal<PlannedJob | null>(null);
  // Of a job without words it is known at once: what stands below it is not moved by it later.
  const problem = signal<PlanningProblem | null>(isBlank(job.peek()) ? words({ kind: 'nothing-to-write' }, job.peek()) : null);
  const busyFraction = signal<number | null>(null);
  let wantedKey = '';
  let cancelTimer: (() => void) | null = null;
  let stopper: AbortController | null = null;

  const run = async (wanted: Job): Promise<void> => {
    const mine = new AbortController();
    stopper = mine;
    busyFraction.value = 0;
    let outcome: PlanningResult;
    try {
      outcome = await planner.plan(wanted, (fraction) => !mine.signal.aborted && (busyFraction.value = fraction), mine.signal);
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
    problem.value = outcome.ok ? null : words(outcome.problem, wanted);
    // The job may have changed since in what the plan does not depend on, such as its tanks.
    if (outcome.ok) planned.value = forJob(outcome.value, job.peek());
  };

  const stopWatching = effect(() => {
    const now = job.value;
    const key = planKey(now);
    if (key === wantedKey) {
      const last = planned.peek();
      if (last !== null && stopper === null && cancelTimer === null) planned.value = forJob(last, now);
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

/** Neither words nor a drawing: there is nothing to plan. */
export const isBlank = ({ text, drawings }: Job): boolean => text.trim() === '' && drawings.length === 0;

/** A plan for a job that differs in nothing the plan depends on; the visibility and clouds are the job's own. */
function forJob(planned: PlannedJob, job: Job): PlannedJob {
  return { ...planned, job, air: jobAir(job) };
}
