import type { Job } from '../core/job/job.ts';
import { type JobPlanResult, planJobSteps } from '../core/plan/plan-job.ts';
import { nextTask } from './next-task.ts';

/** What the planner's worker answers to. */
export interface PlannerService {
  /**
   * Plans a job as `planJob` does, to the same answer; `null` when stopped.
   *
   * @param runId names the run for {@link PlannerService.stop}
   */
  plan(runId: number, job: Job, onProgress: (fraction: number) => void): Promise<JobPlanResult | null>;
  /** Stops a run at its next breath; unknown and finished runs are ignored. */
  stop(runId: number): void;
}

/** A worker hears nothing while it computes: it breathes this often. */
const BREATH_MILLISECONDS = 25;

/** Makes the service; state is only which runs are still wanted. */
export function createPlannerService(): PlannerService {
  const wanted = new Set<number>();
  return {
    async plan(runId, job, onProgress) {
      wanted.add(runId);
      try {
        const steps = planJobSteps(job);
        let breathedAt = performance.now();
        for (;;) {
          const step = steps.next();
          if (step.done) return step.value;
          if (performance.now() - breathedAt < BREATH_MILLISECONDS) continue;
          onProgress(step.value.fraction);
          await nextTask();
          breathedAt = performance.now();
          if (!wanted.has(runId)) return null;
        }
      } finally {
        wanted.delete(runId);
      }
    },
    stop(runId) {
      wanted.delete(runId);
    },
  };
}
