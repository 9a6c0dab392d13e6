import type { Tracker } from '../tracking/tracker.ts';
import type { Flight } from './guidance-state.ts';

/** The clocks have parted when they differ by more than this in one step. */
const PARTED_SECONDS = 1;
/** A wall clock ahead by up to this much is a sleep of the page; by more, or behind, somebody set the clock. */
const LONGEST_SLEEP_SECONDS = 900;

/**
 * The flight at a later instant. `atSeconds` stands still while a tablet sleeps and the wall clock may be set, so
 * the two are compared: after a sleep everything remembered is that much older; in either case nothing is cued until
 * a fresh fix.
 */
export function clockMoved(flight: Flight, atSeconds: number, wallMilliseconds: number, smokeCued: boolean): Flight {
  const monotonic = Math.max(atSeconds, flight.atSeconds) - flight.atSeconds;
  const gapSeconds = (wallMilliseconds - flight.wallMilliseconds) / 1000 - monotonic;
  // A switch that was never marked is believed to follow the cue.
  const smoking = flight.smokeMarked === null ? smokeCued : flight.smokeMarked === 'on';
  const next: Flight = {
    ...flight,
    atSeconds: flight.atSeconds + monotonic,
    wallMilliseconds,
    smokedSeconds: flight.smokedSeconds + (smoking ? monotonic : 0),
    commands: flight.commands.filter(({ fromSeconds }, index, all) => {
      const successor = all[index + 1];
      return successor === undefined || successor.fromSeconds > atSeconds - COMMANDS_KEPT_SECONDS || fromSeconds > atSeconds - COMMANDS_KEPT_SECONDS;
    }),
  };
  if (Math.abs(gapSeconds) <= PARTED_SECONDS) return next;
  const slept = gapSeconds > 0 && gapSeconds <= LONGEST_SLEEP_SECONDS;
  return { ...(slept ? older(next, gapSeconds) : next), clockInDoubt: true };
}

/** Cues older than this explain no fix that may still come. */
const COMMANDS_KEPT_SECONDS = 8;

function older(flight: Flight, bySeconds: number): Flight {
  const { tracker } = flight;
  const aged: Tracker = {
    ...tracker,
    estimate: tracker.estimate === null ? null : { ...tracker.estimate, atSeconds: tracker.estimate.atSeconds - bySeconds },
    pending: [],
    last: tracker.last === null ? null : { ...tracker.last, measuredAtSeconds: tracker.last.measuredAtSeconds - bySeconds },
  };
  return {
    ...flight,
    tracker: aged,
    lastUsedAtSeconds: flight.lastUsedAtSeconds - bySeconds,
    commands: flight.commands.map((command) => ({ ...command, fromSeconds: command.fromSeconds - bySeconds })),
    datumAtSeconds: flight.datumAtSeconds === null ? null : flight.datumAtSeconds - bySeconds,
  };
}
