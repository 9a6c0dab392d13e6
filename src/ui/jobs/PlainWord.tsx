import type { VNode } from 'preact';
import type { Job } from '../../core/job/job.ts';
import { writtenWords } from '../../core/job/written-words.ts';

/** A job's text in plain type, while or where there is no drawing of it. */
export function PlainWord({ job }: { readonly job: Job }): VNode {
  return <span class="job-undrawn">{writtenWords(job)}</span>;
}
