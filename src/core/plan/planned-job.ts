import type { Job } from '../job/job.ts';
import type { JobPlan } from './plan-job.ts';

/** A plan and the job it was made for, which may be a few keystrokes old. */
export interface PlannedJob extends JobPlan {
  readonly job: Job;
}
