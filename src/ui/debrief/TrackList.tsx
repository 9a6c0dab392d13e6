import { clockText } from '../words/clock.ts';
import type { VNode } from 'preact';
import type { Job } from '../../core/job/job.ts';
import { useDebrief } from './debrief-context.ts';
import { FileButton } from '../fields/FileButton.tsx';

/** Tracks of other recorders: taken in, told which ship they are, put away. */
export function TrackList({ job }: { readonly job: Job | null }): VNode {
  const { desk } = useDebrief();
  const tracks = desk.tracks.value;
  const state = desk.state.value;
  const openId = state.kind === 'open' ? state.flight.id : null;
  const elsewhere = (id: string): string | null => {
    const flightId = desk.trackFlights.value.get(id) ?? null;
    return openId === null || flightId === openId ? null : flightId;
  };
  const timeZone = job?.site.timeZone ?? 'UTC';
  return (
    <div class="track-list">
      <p class="small quiet">
        GPX and IGC from any recorder, another ship{'\u2019'}s export as well, and an observer{'\u2019'}s log from the Ground screen. Ships are laid side by
        side by their times. Files may also be dropped on this page.
      </p>
      <div class="row">
        <FileButton
          label="Track files to import"
          multiple
          accept=".gpx,.igc,.nmea,.json,application/gpx+xml,application/json,text/plain"
          onFiles={(files) => void desk.importTracks(files)}
        >
          Import a track or a log
        </FileButton>
      </div>
      {tracks.length > 0 && (
        <ul class="tracks">
          {tracks.map(({ id, track, shipIndex }) => (
            <li key={id} data-track={track.name}>
              <span>
                <strong>{track.name}</strong>{' '}
                <span class="small quiet">{clockText(track.points[0]?.timeMilliseconds ?? Number.NaN, timeZone, { day: 'date' })}</span>
              </span>
              <label>
                <span class="visually-hidden">Which ship {track.name} is</span>
                <select
                  value={shipIndex === null ? '' : String(shipIndex)}
                  onChange={(event) => void desk.assignTrack(id, event.currentTarget.value === '' ? null : Number(event.currentTarget.value))}
                >
                  <option value="">a stranger</option>
                  {(job?.ships ?? []).map((ship, index) => (
                    <option key={index} value={String(index)}>
                      {ship.name}
                    </option>
                  ))}
                </select>
              </label>
              {elsewhere(id) !== null && (
                <button type="button" class="plain" onClick={() => void desk.open(elsewhere(id) ?? '')}>
                  Another flight{'\u2019'}s: open that
                </button>
              )}
              <button type="button" class="plain" onClick={() => void desk.removeTrack(id)}>
                Remove
              </button>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}
