import { airPathLengthMetres, airPoseAt } from '../../paths/air-path.ts';
import { STATE, STATE_SIZE } from '../../tracking/estimate.ts';
import { propagate } from '../../tracking/propagate.ts';
import type { FlyingState } from '../guidance-state.ts';
import { BLANK_AGE_SECONDS, fixAgeSeconds, HELD_AT_MOST_SECONDS, motionOf } from '../present.ts';
import { watchedAsNow } from '../watched-as-now.ts';

type OnStroke = Extract<FlyingState, { phase: 'onStroke' }>;

/**
 * The smoke must lie this near to its line, in letter heights, by one and a quarter standard deviations. The covariance is wary: in
 * 25 words with 5 s lost each minute the believed place was wrong across the line by half a deviation (rms), by 1.0 at most.
 */
const HELD_PER_LETTER_HEIGHT = 0.04;
const DEVIATIONS = 1.25;

/**
 * Whether a stroke may go on though its last fix is too old to cue by: the last line or arc is flown on by hand and compass, and
 * for some seconds the covariance says that the smoke stays within 0.04 letter heights of its line. Only under smoke, only where
 * fixes stay away for no lasting reason, and only by flights that were set up to hold.
 */
export function isHeld(state: OnStroke): boolean {
  const { flight } = state;
  const { estimate } = flight.tracker;
  const age = fixAgeSeconds(flight);
  if (!watchedAsNow(flight.setup) || estimate === null || age === null || flight.clockInDoubt) return false;
  // Silence is a loss like another; a permission taken back or a hidden page is none that passes by itself.
  if (flight.fixesLost === 'permission' || flight.fixesLost === 'hidden') return false;
  // A fix that came and was not believed is no short loss.
  if (flight.lastVerdict !== 'used' || age < BLANK_AGE_SECONDS || age > HELD_AT_MOST_SECONDS) return false;
  const { covariance } = propagate(estimate, flight.atSeconds, motionOf(flight));
  const { path } = flight.setup.strokes[state.strokeIndex]!;
  const direction = airPoseAt(path, Math.min(Math.max(0, state.alongMetres), airPathLengthMetres(path))).directionRadians;
  const [sine, cosine] = [Math.sin(direction), Math.cos(direction)];
  // What was wrong of the drift when the stroke began does not count: its frame stands still under smoke.
  const across = [
    [STATE.east, -sine],
    [STATE.north, cosine],
  ] as const;
  let variance = 0;
  for (const [row, one] of across) for (const [column, other] of across) variance += one * other * covariance[row * STATE_SIZE + column]!;
  return DEVIATIONS * Math.sqrt(Math.max(0, variance)) <= HELD_PER_LETTER_HEIGHT * flight.setup.letterHeightMetres;
}
