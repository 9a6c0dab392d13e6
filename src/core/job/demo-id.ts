import type { Job } from './job.ts';

/** The id under which the demo job is stored at the first run. */
export const DEMO_JOB_ID = 'lake-ondine';

/** Whether a job's values are invented: the demo, also as older versions stored it, and every copy of it. */
export function isDemo({ demo, id }: Pick<Job, 'demo' | 'id'>): boolean {
  return demo || id === DEMO_JOB_ID;
}
