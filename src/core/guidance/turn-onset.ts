import { signedRadians } from '../units/angle.ts';
import type { Flight } from './guidance-state.ts';
import { flownCommands } from './present.ts';

/** A track that has turned by this twice in a row is turning: two fixes 3 m off each make a track of a second 5 degrees wrong. */
const TURNED_RADIANS = (20 * Math.PI) / 180;
/** The track before the cue must have been straight for so long by the fixes, and longer by the cues. */
const STRAIGHT_SECONDS = 4;
/** A circle's shallow turn, which is trimmed as it is flown, tells little: up to 4.8 s beyond at the desk. */
const TELLING_SHARE = 0.6;
const STRAIGHT_RADIANS = (15 * Math.PI) / 180;

/**
 * Seconds from the cue of a turn to the first trace of it in the track over the ground, by the times the fixes are held to be
 * of; null while the last cue is no turn out of straight flight, or has left no trace. It needs no filter: the raw positions
 * say it. Positions 3 s later than believed show a turn 3 s later.
 */
export function turnOnsetSeconds(flight: Flight, doubtSeconds: number): number | null {
  const { turnCue, setup } = flight;
  if (turnCue === null || turnCue.bankRadians < TELLING_SHARE * setup.turningBankRadians || flownCommands(flight).at(-1)?.sense !== turnCue.sense) return null;
  // What comes late shows the end of the turn before as if it were the beginning of this one.
  if (turnCue.straightSeconds < doubtSeconds + STRAIGHT_SECONDS) return null;
  const cuedAtSeconds = turnCue.fromSeconds;
  const tracks = flight.tracker.velocities.map(({ atSeconds, eastMetresPerSecond, northMetresPerSecond }) => ({
    atSeconds,
    radians: Math.atan2(northMetresPerSecond, eastMetresPerSecond),
  }));
  const before = tracks.filter(({ atSeconds }) => atSeconds <= cuedAtSeconds && atSeconds > cuedAtSeconds - STRAIGHT_SECONDS);
  const first = before[0];
  if (first === undefined || before.length < 3) return null;
  const base = first.radians + before.reduce((sum, { radians }) => sum + signedRadians(radians - first.radians), 0) / before.length;
  if (before.some(({ radians }) => Math.abs(signedRadians(radians - base)) > STRAIGHT_RADIANS)) return null;
  const sign = turnCue.sense === 'left' ? 1 : -1;
  const turned = (radians: number | undefined): boolean => radians !== undefined && sign * signedRadians(radians - base) > TURNED_RADIANS;
  const trace = tracks.find(({ atSeconds, radians }, index) => atSeconds > cuedAtSeconds && turned(radians) && turned(tracks[index + 1]?.radians));
  return trace === undefined ? null : trace.atSeconds - cuedAtSeconds;
}
