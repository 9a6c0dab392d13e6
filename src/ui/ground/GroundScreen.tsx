import type { VNode } from 'preact';

/** The Ground screen of one job. */
export function GroundScreen({ jobId }: { readonly jobId: string }): VNode {
  return <h1 data-job={jobId}>Ground</h1>;
}
