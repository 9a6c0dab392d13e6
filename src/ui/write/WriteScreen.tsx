import type { VNode } from 'preact';
import './write.css';
import { useApplication } from '../application-context.ts';
import { lazily } from '../lazily.tsx';
import { FlightCues } from './FlightCues.tsx';

/** Not carried along by a flight that is gone on with, whose cues stand in the page's first script. */
const WriteGround = lazily('Write', async () => (await import('./WriteGround.tsx')).WriteGround);

const WithoutStore = lazily('Write', async () => (await import('./WithoutStore.tsx')).WithoutStore, LookingForFlight);

function LookingForFlight(): VNode {
  return (
    <p class="quiet" role="status">
      Looking for a flight to go on with
    </p>
  );
}

/** The Write screen of one job: what is chosen on the ground, and the cues from then on. */
export function WriteScreen({ jobId }: { readonly jobId: string }): VNode {
  const { flightDesk, jobs } = useApplication();
  const state = flightDesk.state.value;
  switch (state.kind) {
    case 'flying':
      return <FlightCues flight={state.flight} />;
    case 'asking':
      return <WithoutStore jobId={jobId} />;
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
      // The same place as above: whoever started without the store stays there.
      if (jobs.state.value.kind !== 'ready') return <WithoutStore jobId={jobId} />;
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
