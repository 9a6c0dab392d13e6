import type { VNode } from 'preact';

/** The Fly screen of one job. */
export function FlyScreen({ jobId }: { readonly jobId: string }): VNode {
  return <h1 data-job={jobId}>Fly</h1>;
}
