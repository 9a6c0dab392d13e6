import { signedRadians } from '../../units/angle.ts';

/**
 * Direction to fly so as to close on a line: the line's own, turned towards it by `atan(cross-track / lookahead)`,
 * at most `limitRadians`. Right of the line (positive) turns left.
 */
export function interceptDirection(lineDirectionRadians: number, crossTrackMetres: number, lookaheadMetres: number, limitRadians: number): number {
  const turn = Math.atan(crossTrackMetres / lookaheadMetres);
  return signedRadians(lineDirectionRadians + Math.min(limitRadians, Math.max(-limitRadians, turn)));
}
