import { DemoMark } from '../drawing/DemoMark.tsx';
import type { VNode } from 'preact';
import { hashFromRoute } from '../../app/route.ts';
import { useDebrief } from './debrief-context.ts';
import { flightTitle } from './flight-words.ts';

/** Which flight is on the desk, and which others there are. */
export function DeskHead(): VNode {
  const { desk } = useDebrief();
  const job = desk.job.value;
  const flights = desk.flights.value;
  const state = desk.state.value;
  const timeZone = job?.site.timeZone ?? 'UTC';
  const openId = state.kind === 'open' ? state.flight.id : state.kind === 'nothing' ? '' : state.flightId;
  return (
    <header class="debrief-head">
      <div>
        <h1>Debrief</h1>
        {job !== null && <p class="quiet">{job.name}</p>}
        <DemoMark job={job} />
      </div>
      {flights.kind === 'ready' && flights.flights.length > 0 && (
        <label class="field">
          <span>Flight</span>
          <select value={openId} onChange={(event) => void desk.open(event.currentTarget.value)}>
            {openId === '' && <option value="">Choose one</option>}
            {flights.flights.map((flight) => (
              <option key={flight.id} value={flight.id}>
                {flightTitle(flight, timeZone, job?.ships.length ?? 1)}
                {flight.endedAtMilliseconds === null ? ', not ended' : ''}
              </option>
            ))}
          </select>
        </label>
      )}
      {flights.kind === 'ready' && flights.flights.length === 0 && (
        <p class="debrief-none">
          This job was not flown on this device yet.{' '}
          {job !== null && <a href={hashFromRoute({ screen: 'write', jobId: job.id })}>Fly it, or rehearse it at the desk</a>}, or import a track below.
        </p>
      )}
      {flights.kind === 'ready' && flights.damaged.length > 0 && (
        <p class="small">Damaged and not opened: {flights.damaged.map(({ name }) => name).join(', ')}.</p>
      )}
      {(flights.kind === 'loading' || state.kind === 'opening') && (
        <p class="quiet" role="status">
          Opening the flight
        </p>
      )}
      {flights.kind === 'failed' && (
        <div class="notice" role="alert">
          <p>The stored flights cannot be read. {flights.reason} Nothing was deleted.</p>
          <button type="button" onClick={() => void desk.refresh()}>
            Try again
          </button>
        </div>
      )}
      {state.kind === 'failed' && (
        <p class="notice" role="alert">
          This flight cannot be opened. {state.reason}
        </p>
      )}
    </header>
  );
}
