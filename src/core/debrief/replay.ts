import type { Cues } from '../guidance/cues.ts';
import { cuesFrom } from '../guidance/cues-from.ts';
import type { FlightEvent } from '../guidance/flight-event.ts';
import { type GuidanceState, initialState } from '../guidance/guidance-state.ts';
import type { Hanging } from '../guidance/hanging/hanging.ts';
import { reduce } from '../guidance/reduce.ts';
import { indexAt } from './air-track.ts';
import { flightTimes } from './flight-time.ts';

/** From here on the pilot was told something else. */
export interface CueChange {
  /** Flight time, see `flightTimes`. */
  readonly atSeconds: number;
  readonly phase: Cues['phase'];
  readonly turn: Cues['turn'];
  readonly headingTrueDegrees: number | null;
  /** To the nearest degree. */
  readonly bankDegrees: number | null;
  readonly smoke: Cues['smoke'];
  readonly strokeNumber: number;
}

/** What a whole replay leaves behind: plain data, which a worker can hand over. Flight times. */
export interface Replayed {
  readonly startSeconds: number;
  readonly endSeconds: number;
  /** What the pilot was told, one entry for each change. */
  readonly changes: readonly CueChange[];
  /** When the drift was zero; null when the flight never came so far. */
  readonly datumSeconds: number | null;
  /** How far the pilot moved the text before the first smoke. */
  readonly movedEastMetres: number;
  readonly movedNorthMetres: number;
  readonly skippedCount: number;
  /** Where the text was hung in the end; null where nothing was asked for. */
  readonly hanging: Hanging | null;
}

/** A log run through the guidance once more. */
export interface Replay {
  readonly eventCount: number;
  readonly startSeconds: number;
  readonly endSeconds: number;
  /** How many events have been run. */
  doneCount(): number;
  /** Runs up to so many events more. */
  advance(count: number): void;
  /**
   * The cues as they were shown at a time; null before the first event and where the replay has not come yet.
   * Takes at most {@link CHECKPOINT_EVENTS} steps.
   */
  cuesAt(atSeconds: number): Cues | null;
  /** The state at a time, under the same terms. */
  stateAt(atSeconds: number): GuidanceState | null;
  /** What the replay leaves behind, as far as it has come. */
  replayed(): Replayed;
}

/** A state is kept every so many events; states share what did not change, so they cost little. */
export const CHECKPOINT_EVENTS = 32;

/**
 * Replays a log: the same events through the same reducer give the same cues. The work is done in slices the caller
 * chooses, so that a worker can answer in between; once run, any moment is a few steps away.
 */
export function createReplay(events: readonly FlightEvent[]): Replay {
  const times = flightTimes(events);
  const checkpoints: GuidanceState[] = [initialState];
  const changes: CueChange[] = [];
  let state = initialState;
  let done = 0;
  let cached: { readonly count: number; readonly state: GuidanceState } | null = null;

  /** The state after so many events. */
  function stateAfter(count: number): GuidanceState {
    const base = Math.floor(count / CHECKPOINT_EVENTS);
    // Playing on from the last answer is cheaper than from the checkpoint before it.
    const near =
      cached !== null && cached.count <= count && cached.count >= base * CHECKPOINT_EVENTS
        ? cached
        : { count: base * CHECKPOINT_EVENTS, state: checkpoints[base] ?? initialState };
    let at = near.state;
    for (let index = near.count; index < count; index += 1) at = reduce(at, events[index]!);
    cached = { count, state: at };
    return at;
  }

  function stateAt(atSeconds: number): GuidanceState | null {
    const count = indexAt(times, atSeconds) + 1;
    return count === 0 || count > done ? null : stateAfter(count);
  }

  return {
    eventCount: events.length,
    startSeconds: times[0] ?? 0,
    endSeconds: times.at(-1) ?? 0,
    doneCount: () => done,
    advance(count) {
      const end = Math.min(events.length, done + count);
      for (; done < end; done += 1) {
        state = reduce(state, events[done]!);
        if ((done + 1) % CHECKPOINT_EVENTS === 0) checkpoints.push(state);
        const change = changeFrom(cuesFrom(state), times[done]!);
        const last = changes.at(-1);
        if (last === undefined || differs(last, change)) changes.push(change);
      }
    },
    cuesAt(atSeconds) {
      const at = stateAt(atSeconds);
      return at === null ? null : cuesFrom(at);
    },
    stateAt,
    replayed() {
      const flight = state.phase === 'idle' ? null : state.flight;
      const doneSeconds = times[done - 1] ?? 0;
      return {
        startSeconds: times[0] ?? 0,
        endSeconds: times.at(-1) ?? 0,
        changes,
        // The guidance counts on the clock that stands still in sleep; it is as far behind as at its last event.
        datumSeconds: flight?.datumAtSeconds == null ? null : flight.datumAtSeconds + doneSeconds - flight.atSeconds,
        movedEastMetres: flight?.movedEastMetres ?? 0,
        movedNorthMetres: flight?.movedNorthMetres ?? 0,
        hanging: flight?.hanging ?? null,
        skippedCount: flight?.progress.filter(({ status }) => status === 'skipped').length ?? 0,
      };
    },
  };
}

function changeFrom(cues: Cues, atSeconds: number): CueChange {
  return {
    atSeconds,
    phase: cues.phase,
    turn: cues.turn,
    headingTrueDegrees: cues.headingTrueDegrees === null ? null : Math.round(cues.headingTrueDegrees),
    bankDegrees: cues.bankDegrees === null ? null : Math.round(cues.bankDegrees),
    smoke: cues.smoke,
    strokeNumber: cues.strokeNumber,
  };
}

function differs(one: CueChange, other: CueChange): boolean {
  return (
    one.phase !== other.phase ||
    one.turn !== other.turn ||
    one.headingTrueDegrees !== other.headingTrueDegrees ||
    one.bankDegrees !== other.bankDegrees ||
    one.smoke !== other.smoke ||
    one.strokeNumber !== other.strokeNumber
  );
}
