import type { VNode } from 'preact';
import type { DeskState } from '../../../app/flight/flight-desk.ts';
import { useApplication } from '../../application-context.ts';
import { WriteGround } from './WriteGround.tsx';

export interface NoFlightProps {
  readonly jobId: string;
  readonly state: Exclude<DeskState, { readonly kind: 'flying' | 'asking' }>;
}

/** The Write screen while this page flies nothing: the start, or why there is none. */
export function NoFlight({ jobId, state }: NoFlightProps): VNode {
  const { flightDesk, jobs } = useApplication();
  switch (state.kind) {
    case 'elsewhere':
      return (
        <div class="notice caution" role="alert">
          <h1>A flight is on in another tab</h1>
          <p>This tab only reads. Close the other one, and this one goes on with the flight.</p>
        </div>
      );
    case 'broken':
      return (
        <div class="notice caution" role="alert">
          <h1>The last flight cannot be gone on with</h1>
          <p>
            {state.name}: {state.reason} What was logged is kept.
          </p>
          <button type="button" onClick={() => flightDesk.leave()}>
            Close that flight
          </button>
        </div>
      );
    case 'grounded': {
      const job = jobs.find(jobId);
      return job === null ? <MissingJob /> : <WriteGround key={job.id} job={job} />;
    }
  }
}

function MissingJob(): VNode {
  return (
    <div class="notice caution" role="alert">
      <h1>This job is not on this device</h1>
      <p>
        Import its file under <a href="#/jobs">Jobs</a>.
      </p>
    </div>
  );
}
