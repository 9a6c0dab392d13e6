import type { VNode } from 'preact';
import './write.css';
import { useApplication } from '../application-context.ts';
import { lazily } from '../lazily.tsx';
import { FlightCues } from './FlightCues.tsx';

/** Not carried along by a flight that is gone on with, whose cues stand in the page's first script. */
const NoFlight = lazily(async () => (await import('./start/NoFlight.tsx')).NoFlight, 'Write');

const WithoutStore = lazily(async () => (await import('./start/WithoutStore.tsx')).WithoutStore, LookingForFlight);

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
  if (state.kind === 'flying') return <FlightCues flight={state.flight} />;
  // One place for both: whoever started without the store stays there.
  if (state.kind === 'asking' || (state.kind === 'grounded' && jobs.state.value.kind !== 'ready')) return <WithoutStore jobId={jobId} />;
  return <NoFlight jobId={jobId} state={state} />;
}
