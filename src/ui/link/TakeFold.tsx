import './join.css';
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { lazily } from '../lazily.tsx';

const JobTaking = lazily(async () => (await import('./JobTaking.tsx')).JobTaking, 'the reading of codes');

/** Takes a job from another device, fetched and drawn when it is opened. */
export function TakeFold(): VNode {
  const open = useSignal(false);
  return (
    <div class="take-fold">
      <button type="button" aria-expanded={open.value} onClick={() => (open.value = !open.value)}>
        From another device
      </button>
      {open.value && <JobTaking jobId={null} digest={null} />}
    </div>
  );
}
