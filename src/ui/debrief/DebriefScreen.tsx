import type { VNode } from 'preact';

/** The Debrief screen of one job. */
export function DebriefScreen({ jobId }: { readonly jobId: string }): VNode {
  return <h1 data-job={jobId}>Debrief</h1>;
}
