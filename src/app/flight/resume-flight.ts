import { type GuidanceState, initialState } from '../../core/guidance/guidance-state.ts';
import { reduce } from '../../core/guidance/reduce.ts';
import { STATE } from '../../core/tracking/estimate.ts';
import { bearingFromDirection, degreesFromRadians } from '../../core/units/angle.ts';
import type { LogReading } from '../../store/read-log.ts';
import { flightEventFromRow } from './flight-event-from-row.ts';
import type { Checkpoint } from './checkpoint.ts';
import type { Resumption } from './world-types.ts';

/** A flight's log, flown again in the reducer. */
export interface FlownAgain {
  readonly state: GuidanceState;
  /** Monotonic time of the last event. */
  readonly atSeconds: number;
  /** Rows that say nothing this version understands. */
  readonly unreadRows: number;
}

/**
 * The state that a log leads to: the same events through the same reducer, from its beginning or from a checkpoint
 * whose row the log holds.
 */
export function flownAgain({ rows }: LogReading, checkpoint: Checkpoint | null): FlownAgain {
  const from = checkpoint === null ? -1 : rows.findIndex(({ sequence }) => sequence === checkpoint.sequence);
  let state: GuidanceState = checkpoint === null || from < 0 ? initialState : checkpoint.state;
  let atSeconds = rows[from]?.monotonicSeconds ?? 0;
  let unreadRows = 0;
  for (const { event } of rows.slice(from + 1)) {
    const known = flightEventFromRow(event);
    if (known === null) {
      unreadRows += 1;
      continue;
    }
    state = reduce(state, known);
    atSeconds = known.atSeconds;
  }
  return { state, atSeconds, unreadRows };
}

/** Where a resumed flight goes on: at the last logged time, for a rehearsal at the last place believed. */
export function resumptionOf({ state, atSeconds }: FlownAgain): Resumption {
  const estimate = state.phase === 'idle' ? null : state.flight.tracker.estimate;
  const [east, north, direction] = [estimate?.mean[STATE.east], estimate?.mean[STATE.north], estimate?.mean[STATE.direction]];
  if (east === undefined || north === undefined || direction === undefined) return { atSeconds, place: null };
  return {
    atSeconds,
    place: { startEastMetres: east, startNorthMetres: north, startHeadingDegrees: degreesFromRadians(bearingFromDirection(direction)) },
  };
}
