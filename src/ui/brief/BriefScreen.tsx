import type { VNode } from 'preact';
import { useApplication } from '../application-context.ts';
import { WithUnits } from '../fields/WithUnits.tsx';
import { OpenBrief } from './OpenBrief.tsx';

/** The Brief screen of one job: the pages that go to the ships, the controller and the client. */
export function BriefScreen({ jobId }: { readonly jobId: string }): VNode {
  const { jobs } = useApplication();
  const state = jobs.state.value;
  const job = jobs.find(jobId);
  if (job !== null)
    return (
      <WithUnits>
        <OpenBrief job={job} />
      </WithUnits>
    );
  if (state.kind === 'loading') {
    return (
      <p class="quiet" role="status">
        Opening the job
      </p>
    );
  }
  return (
    <section class="notice caution" role="alert">
      <h1>This job cannot be opened</h1>
      <p>{state.kind === 'failed' ? state.reason : 'No job with this address is stored on this device.'}</p>
      <a class="button" href="#/jobs">
        To the jobs
      </a>
    </section>
  );
}
