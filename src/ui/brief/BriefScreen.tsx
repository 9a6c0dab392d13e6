import type { VNode } from 'preact';

/** The Brief screen of one job. */
export function BriefScreen({ jobId }: { readonly jobId: string }): VNode {
  return <h1 data-job={jobId}>Brief</h1>;
}
