import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { jobDigest } from '../../app/link/job-digest.ts';
import type { Job } from '../../core/job/job.ts';
import { JobTaking } from '../link/JobTaking.tsx';

export interface OtherVersionProps {
  readonly job: Job;
  /** By the join code that was scanned. */
  readonly wantedDigest: string;
}

const eight = (digest: string): string => `${digest.slice(0, 4)} ${digest.slice(4, 8)}`;

/** Says when the job on this device is not the version that the join code names, and takes that version. */
export function OtherVersion({ job, wantedDigest }: OtherVersionProps): VNode | null {
  const [digest, setDigest] = useState<string | null>(null);
  const taking = useSignal(false);
  useEffect(() => {
    setDigest(null);
    jobDigest(job).then(setDigest, () => {});
  }, [job]);
  if (digest === null || digest === wantedDigest) return null;
  return (
    <section class="other-version" aria-label="Another version of this job">
      <div class="notice caution" role="alert" data-figure="other-version" data-value={digest}>
        <p>
          The join code names version {eight(wantedDigest)} of this job; on this device is {eight(digest)}. What is shown below may not be what is flown.
        </p>
        <button type="button" aria-expanded={taking.value} onClick={() => (taking.value = !taking.value)}>
          Take that version
        </button>
      </div>
      {taking.value && <JobTaking jobId={job.id} digest={wantedDigest} />}
    </section>
  );
}
