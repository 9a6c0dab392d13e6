import { type AirPoint, airPathLengthMetres, airPoseAt } from '../paths/air-path.ts';
import type { Plan } from '../plan/plan.ts';
import { positiveRadians } from '../units/angle.ts';

/** A point of a trail: where in the air, and when, its smoke was laid. */
export interface TrailPoint extends AirPoint {
  /** Seconds since the datum. */
  readonly laidAtSeconds: number;
}

/** Smoke laid in one go, planned or flown, in the air-mass frame; at least two points, in the order of laying. */
export interface Trail {
  readonly shipIndex: number;
  readonly letterIndex: number;
  readonly character: string;
  readonly points: readonly TrailPoint[];
  readonly kilogramsPerMetre: number;
  /** Above the job's layer. */
  readonly heightStepMetres: number;
}

/** One straight bit of a trail. */
export interface TrailPiece {
  readonly from: TrailPoint;
  readonly to: TrailPoint;
  readonly lengthMetres: number;
  /** Anticlockwise from east, in [0, 2 pi). */
  readonly directionRadians: number;
  /** When its middle was laid. */
  readonly laidAtSeconds: number;
}

/**
 * The trails a plan lays, as points at most `stepMetres` apart. A chord leaves its arc by at most step^2 / 8R:
 * 0.5 m for 30 m steps on a radius of 220 m.
 */
export function trailsFromPlan(plan: Plan, stepMetres: number): Trail[] {
  if (!(stepMetres > 0)) throw new RangeError(`stepMetres must be above 0, not ${stepMetres}`);
  return plan.ships.flatMap((ship) => {
    const smokeMetres = ship.smokeSeconds * plan.trueAirspeedMetresPerSecond;
    const kilogramsPerMetre = smokeMetres > 0 ? ship.oilKilograms / smokeMetres : 0;
    return ship.legs.flatMap((leg): Trail[] => {
      if (leg.kind !== 'smoke') return [];
      const lengthMetres = airPathLengthMetres(leg.path);
      const count = Math.max(1, Math.ceil(lengthMetres / stepMetres));
      const points = Array.from({ length: count + 1 }, (_, index): TrailPoint => {
        const share = index / count;
        const { airEastMetres, airNorthMetres } = airPoseAt(leg.path, share * lengthMetres);
        return { airEastMetres, airNorthMetres, laidAtSeconds: leg.startSeconds + share * (leg.endSeconds - leg.startSeconds) };
      });
      const { shipIndex, heightStepMetres } = ship;
      return [{ shipIndex, letterIndex: leg.letterIndex, character: leg.character, points, kilogramsPerMetre, heightStepMetres }];
    });
  });
}

/** The straight bits of a trail; points on one another give none. */
export function trailPieces(trail: Trail): TrailPiece[] {
  return trail.points.flatMap((to, index): TrailPiece[] => {
    const from = trail.points[index - 1];
    if (from === undefined) return [];
    const east = to.airEastMetres - from.airEastMetres;
    const north = to.airNorthMetres - from.airNorthMetres;
    const lengthMetres = Math.hypot(east, north);
    if (lengthMetres === 0) return [];
    return [
      {
        from,
        to,
        lengthMetres,
        directionRadians: positiveRadians(Math.atan2(north, east)),
        laidAtSeconds: (from.laidAtSeconds + to.laidAtSeconds) / 2,
      },
    ];
  });
}
