import { inOrder } from '../text/walk-schema.ts';
import type { Job } from './job.ts';
import { JOB_SCHEMA } from './job-schema.ts';

/**
 * The job file's text: two spaces of indent, fields always in the schema's order, a line feed at the end, so that two
 * files of the same job are the same bytes. `parseJob` is its inverse.
 */
export function writeJob(job: Job): string {
  return `${JSON.stringify(inOrder(JOB_SCHEMA, job), null, 2)}\n`;
}
