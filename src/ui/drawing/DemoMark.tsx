import type { VNode } from 'preact';
import { isDemo } from '../../core/job/demo-id.ts';
import type { Job } from '../../core/job/job.ts';

/** Said wherever a job of invented values is shown, on screens and on paper. */
export function DemoMark({ job }: { readonly job: Pick<Job, 'demo' | 'id'> | null }): VNode | null {
  return job !== null && isDemo(job) ? (
    <p class="demo-mark">
      <strong>DEMO</strong> place, winds, radio and ships are invented: not to be flown
    </p>
  ) : null;
}
