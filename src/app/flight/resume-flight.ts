import { type GuidanceState, initialState } from '../../core/guidance/guidance-state.ts';
import { predictedAt } from '../../core/guidance/present.ts';
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

/** Where a resumed flight goes on: at the last logged time, for a rehearsal by its own clock at the place believed for then. */
export function resumptionOf({ state, atSeconds }: FlownAgain): Resumption {
  if (state.phase === 'idle') return { atSeconds, wallMilliseconds: null, place: null };
  const { wallMilliseconds } = state.flight;
  // The last fix that was taken may be seconds old: a rehearsal that went on there would jump back.
  const now = predictedAt(state.flight, atSeconds);
  const [east, north, direction] = [now?.mean[STATE.east], now?.mean[STATE.north], now?.mean[STATE.direction]];
  if (east === undefined || north === undefined || direction === undefined) return { atSeconds, wallMilliseconds, place: null };
  return {
    atSeconds,
    wallMilliseconds,
    place: { startEastMetres: east, startNorthMetres: north, startHeadingDegrees: degreesFromRadians(bearingFromDirection(direction)) },
  };
}
