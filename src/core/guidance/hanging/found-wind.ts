import type { WindVector } from '../../earth/wind-vector.ts';
import type { GuidanceState } from '../guidance-state.ts';
import { windAhead } from './hang-again.ts';

/** The wind's average counts once it is so old: a round of a circle. */
const FOUND_SECONDS = 45;

/** The wind that a ship of a formation has found on its circle, for which the word may be hung; null before. */
export function foundWind(state: GuidanceState): WindVector | null {
  if (state.phase !== 'repositioning') return null;
  const { formation, windAverage, tracker } = state.flight;
  if (formation === null || formation.turnedRadians < 2 * Math.PI || tracker.estimate === null || (windAverage?.seconds ?? 0) < FOUND_SECONDS) return null;
  return windAhead(state.flight, tracker.estimate);
}
