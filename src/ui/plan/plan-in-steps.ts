import type { Job } from '../../core/formats/job.ts';
import { type JobPlanResult, planJobSteps } from '../../core/planning/plan-job.ts';

/** Plans on the page, letting it breathe between steps; for where there is no worker. */
export async function planInSteps(job: Job, onProgress: (fraction: number) => void, stop: AbortSignal): Promise<JobPlanResult> {
  const steps = planJobSteps(job);
  for (;;) {
    stop.throwIfAborted();
    const step = steps.next();
    if (step.done) return step.value;
    onProgress(step.value.fraction);
    await new Promise((resolve) => setTimeout(resolve));
  }
}
