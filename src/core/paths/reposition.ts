import type { PathSegment } from '../units/arc.ts';
import { signedRadians } from '../units/angle.ts';
import { advanceAirPose, type AirPath, airPathLengthMetres, type AirPose } from './air-path.ts';
import { dubinsCandidates, type DubinsPath } from './dubins.ts';
import { SHORTEST_PAUSE_SECONDS, type ShipModel } from './ship-model.ts';

/** Two strokes continue each other when the second starts this close to the line the first leaves on. */
export const JOIN_SLACK_METRES = 1e-3;
export const JOIN_SLACK_RADIANS = 1e-6;

/** The way from a stroke's end to the next stroke's start, smoke off. */
export interface Reposition {
  /** `none`: the strokes touch and the smoke stays on. `pause`: straight ahead, smoke off and on. `turns`: the rest. */
  readonly kind: 'none' | 'pause' | 'turns';
  readonly path: AirPath;
  /** At least the path's length over the airspeed; reversals of bank add to it, spread evenly along the path. */
  readonly seconds: number;
}

/** How far straight ahead `to` lies, or null when it is not ahead on the line `from` leaves on. */
function aheadMetres(from: AirPose, to: AirPose): number | null {
  const east = to.airEastMetres - from.airEastMetres;
  const north = to.airNorthMetres - from.airNorthMetres;
  const cosine = Math.cos(from.directionRadians);
  const sine = Math.sin(from.directionRadians);
  if (Math.abs(north * cosine - east * sine) > JOIN_SLACK_METRES) return null;
  if (Math.abs(signedRadians(to.directionRadians - from.directionRadians)) > JOIN_SLACK_RADIANS) return null;
  const ahead = east * cosine + north * sine;
  return ahead < -JOIN_SLACK_METRES ? null : Math.max(0, ahead);
}

/** Straight after smoke and before smoke, with the rolls into and out of the turns between. */
export function departMetres(model: ShipModel): number {
  return (model.runOutSeconds + model.rollLeadSeconds) * model.trueAirspeedMetresPerSecond;
}
export function arriveMetres(model: ShipModel): number {
  return (model.runInSeconds + model.rollLeadSeconds) * model.trueAirspeedMetresPerSecond;
}

/** Straight flight that a turn passing into its opposite lacks for rolling through level. */
export function reversalMetres(model: ShipModel): number {
  return 2 * model.rollLeadSeconds * model.trueAirspeedMetresPerSecond;
}

/** The pause a straight join needs: for the valve, and for rolls when a stroke ends or the next begins in a curve. */
export function shortestPauseMetres(model: ShipModel, curvedEnds: number): number {
  return Math.max(SHORTEST_PAUSE_SECONDS, curvedEnds * model.writingRollLeadSeconds) * model.trueAirspeedMetresPerSecond;
}

function reversalCostMetres({ word, path }: DubinsPath, model: ShipModel): number {
  if (word[0] === word[2]) return word[1] === 'S' ? 0 : 2 * reversalMetres(model);
  const lineMetres = path.segments.find((piece) => piece.curvaturePerMetre === 0)?.lengthMetres ?? 0;
  return Math.max(0, reversalMetres(model) - lineMetres);
}

function mergedSegments(segments: readonly PathSegment[]): PathSegment[] {
  const merged: PathSegment[] = [];
  for (const segment of segments) {
    const last = merged.at(-1);
    if (segment.lengthMetres <= 0) continue;
    if (last !== undefined && last.curvaturePerMetre === segment.curvaturePerMetre) {
      merged[merged.length - 1] = { ...last, lengthMetres: last.lengthMetres + segment.lengthMetres };
    } else merged.push(segment);
  }
  return merged;
}

/**
 * The quickest way from a stroke's end to the next stroke's start: straight through where the strokes continue each
 * other, otherwise run-out, roll, shortest turn-limited path at the turning bank, roll, run-in.
 *
 * @param curvedEnds how many of the two stroke ends lie in a curve, 0 to 2
 */
export function repositionBetween(end: AirPose, start: AirPose, model: ShipModel, curvedEnds: number): Reposition {
  const speed = model.trueAirspeedMetresPerSecond;
  const ahead = aheadMetres(end, start);
  if (ahead !== null && ahead <= JOIN_SLACK_METRES) return { kind: 'none', path: { start: end, segments: [] }, seconds: 0 };
  if (ahead !== null && ahead >= shortestPauseMetres(model, curvedEnds)) {
    const path = { start: end, segments: [{ lengthMetres: ahead, curvaturePerMetre: 0 }] };
    return { kind: 'pause', path, seconds: ahead / speed };
  }
  const depart = advanceAirPose(end, departMetres(model), 0);
  const arrive = advanceAirPose(start, -arriveMetres(model), 0);
  let best: DubinsPath | null = null;
  let bestMetres = Infinity;
  for (const candidate of dubinsCandidates(depart, arrive, model.turningRadiusMetres)) {
    const metres = candidate.lengthMetres + reversalCostMetres(candidate, model);
    if (metres < bestMetres) {
      best = candidate;
      bestMetres = metres;
    }
  }
  if (best === null) throw new RangeError(`poses must be finite: ${JSON.stringify({ end, start })}`);
  const path = {
    start: end,
    segments: mergedSegments([
      { lengthMetres: departMetres(model), curvaturePerMetre: 0 },
      ...best.path.segments,
      { lengthMetres: arriveMetres(model), curvaturePerMetre: 0 },
    ]),
  };
  return { kind: 'turns', path, seconds: (airPathLengthMetres(path) + bestMetres - best.lengthMetres) / speed };
}
