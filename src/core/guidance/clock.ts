import { STATE } from '../tracking/estimate.ts';
import { propagate } from '../tracking/propagate.ts';
import { type Sighting, trackerOlder } from '../tracking/tracker.ts';
import type { Flight } from './guidance-state.ts';
import { motionOf } from './present.ts';

/** The clocks have gone apart when they differ by more than this in one step. */
const APART_SECONDS = 1;

/**
 * The flight at a later instant. `atSeconds` stands still while a tablet sleeps and the wall clock may be set, so the two
 * are compared; where they part, nothing is cued until the stamps of the fixes and the flight itself have settled which it was.
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
  if (Math.abs(gapSeconds) <= APART_SECONDS) return next;
  const before = flight.clockQuestion;
  const asked = { gapSeconds: (before?.gapSeconds ?? 0) + gapSeconds, sinceSeconds: next.atSeconds, unsettledFixes: 0 };
  // Set and set back is no question any more.
  const settled = Math.abs(asked.gapSeconds) <= APART_SECONDS;
  return { ...next, clockQuestion: settled ? null : asked, clockInDoubt: true };
}

/** Cues older than this explain no fix that may still come. */
const COMMANDS_KEPT_SECONDS = 8;

/** Beside its prediction within this, and nearer than by the other account by that. */
const MET_METRES = 110;
const NEARER_METRES = 40;
/** Nothing flies faster over the ground than 1.6 times its planned airspeed and a wind of 40 m/s. */
const FASTEST_SHARE = 1.6;
const FASTEST_WIND = 40;
/** Where the aircraft would be after a longer sleep, turning or not, nobody can say. */
const FORETOLD_SECONDS = 90;
/** A stamp that moved with the monotonic clock within this while the wall clock did not: the wall clock was set. */
const STAMP_SECONDS = 0.8;
/** So many fixes, and the pilot is asked. */
const ASKED_AFTER_FIXES = 3;

/** Which it was, by the first fixes after: `open` while nothing can tell. */
export type ClockAnswer = 'slept' | 'set' | 'open';

/**
 * What a fix says of the question: an aircraft that slept for a minute at 55 m/s is 3 km on, one whose clock was set is not; and
 * the stamps of a receiver with a clock of its own went on with the one that was right.
 *
 * @param stampMovedSeconds how much the stamp gained on the monotonic clock since before the gap; null without stamps
 */
export function clockAnswer(flight: Flight, sighting: Sighting, stampMovedSeconds: number | null): ClockAnswer {
  const { clockQuestion: question, tracker, setup } = flight;
  if (question === null) return 'set';
  const { gapSeconds } = question;
  if (gapSeconds < 0) return 'set';
  if (stampMovedSeconds !== null && Math.abs(stampMovedSeconds) < STAMP_SECONDS && gapSeconds > 2 * STAMP_SECONDS) return 'set';
  const { estimate, last } = tracker;
  if (estimate === null || last === null) return gapSeconds < LONGEST_GUESSED_SECONDS ? 'slept' : 'set';
  const missAfter = (seconds: number): number => {
    const there = propagate(estimate, sighting.measuredAtSeconds + seconds, motionOf(flight), false);
    return Math.hypot(there.mean[STATE.east]! - sighting.eastMetres, there.mean[STATE.north]! - sighting.northMetres);
  };
  const asSet = missAfter(0);
  const asSlept = gapSeconds <= FORETOLD_SECONDS ? missAfter(gapSeconds) : Infinity;
  // A ship on a circle comes by again: its place alone tells nothing of a long sleep.
  const returns = gapSeconds > RETURNS_SECONDS && flight.commands.at(-1)?.sense !== 'either';
  if (asSet < MET_METRES && asSet + NEARER_METRES < asSlept && !returns) return 'set';
  if (asSlept < MET_METRES && asSlept + NEARER_METRES < asSet) return 'slept';
  const flownMetres = Math.hypot(sighting.eastMetres - last.eastMetres, sighting.northMetres - last.northMetres);
  const fastest = FASTEST_SHARE * setup.trueAirspeedMetresPerSecond + FASTEST_WIND;
  const reachable = (seconds: number): boolean => flownMetres <= fastest * (sighting.measuredAtSeconds - last.measuredAtSeconds + seconds) + MET_METRES;
  if (asSet > 2 * MET_METRES && !reachable(0) && reachable(gapSeconds)) return 'slept';
  return 'open';
}

/** Before any position was trusted it hardly matters: a short gap is a sleep. */
const LONGEST_GUESSED_SECONDS = 900;
/** The quickest whole circle. */
const RETURNS_SECONDS = 15;

/** The flight once the question is answered, by a fix or by the pilot. */
export function clockSettled(flight: Flight, answer: 'slept' | 'set'): Flight {
  const { clockQuestion: question, formation } = flight;
  if (question === null) return flight;
  const settled = { ...flight, clockQuestion: null };
  if (answer === 'slept') return { ...older(settled, question.gapSeconds), awaySeconds: Math.max(flight.awaySeconds, question.gapSeconds) };
  // The timetable counts on the monotonic clock, which nobody set.
  return { ...settled, formation: formation === null ? null : { ...formation, clockBroken: false } };
}

/** Whether the pilot is to say it, since the fixes did not. */
export function isAsked({ clockQuestion }: Pick<Flight, 'clockQuestion'>): boolean {
  return clockQuestion !== null && clockQuestion.unsettledFixes >= ASKED_AFTER_FIXES;
}

function older(flight: Flight, bySeconds: number): Flight {
  return {
    ...flight,
    tracker: trackerOlder(flight.tracker, bySeconds),
    lastUsedAtSeconds: flight.lastUsedAtSeconds - bySeconds,
    commands: flight.commands.map((command) => ({ ...command, fromSeconds: command.fromSeconds - bySeconds })),
    turnCue: flight.turnCue === null ? null : { ...flight.turnCue, fromSeconds: flight.turnCue.fromSeconds - bySeconds },
    straightSinceSeconds: flight.straightSinceSeconds === null ? null : flight.straightSinceSeconds - bySeconds,
    told: flight.told.map((command) => ({ ...command, fromSeconds: command.fromSeconds - bySeconds })),
    datumAtSeconds: flight.datumAtSeconds === null ? null : flight.datumAtSeconds - bySeconds,
  };
}
