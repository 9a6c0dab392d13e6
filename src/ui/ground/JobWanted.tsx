import '../link/join.css';
import type { VNode } from 'preact';
import { JobTaking } from '../link/JobTaking.tsx';

export interface JobWantedProps {
  readonly jobId: string;
  /** What the job must be, by its join code; null when that is not known. */
  readonly digest: string | null;
}

/** A job that is not on this device yet. */
export function JobWanted({ jobId, digest }: JobWantedProps): VNode {
  return (
    <section class="job-wanted">
      <h1>This job is not on this device yet</h1>
      <JobTaking jobId={jobId} digest={digest} />
    </section>
  );
}
