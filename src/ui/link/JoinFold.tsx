import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { Job } from '../../core/job/job.ts';
import { lazily } from '../lazily.tsx';

const JoinCode = lazily(async () => (await import('./JoinCode.tsx')).JoinCode, 'the join code');

/** The join code of a job, fetched and drawn when it is opened. */
export function JoinFold({ job }: { readonly job: Job }): VNode {
  const open = useSignal(false);
  return (
    <div class="join-fold">
      <button type="button" class="plain" aria-expanded={open.value} aria-label={`To another device: ${job.name}`} onClick={() => (open.value = !open.value)}>
        To another device
      </button>
      {open.value && <JoinCode job={job} />}
    </div>
  );
}
