import type { VNode } from 'preact';

/** The Plan screen of one job. */
export function PlanScreen({ jobId }: { readonly jobId: string }): VNode {
  return <h1 data-job={jobId}>Plan</h1>;
}
