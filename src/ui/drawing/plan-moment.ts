import { airPathLengthMetres, type AirPose, airPoseAt } from '../../core/paths/air-path.ts';
import { type Leg, type ShipPlan, wholeFlight } from '../../core/plan/plan.ts';

/** How much of a leg is behind the ship at an instant, 0 to 1. */
export function legShare(leg: Leg, atSeconds: number): number {
  const lastsSeconds = leg.endSeconds - leg.startSeconds;
  if (lastsSeconds <= 0) return atSeconds >= leg.endSeconds ? 1 : 0;
  return Math.min(1, Math.max(0, (atSeconds - leg.startSeconds) / lastsSeconds));
}

/** Where a ship is at an instant of its plan, and what it does there. */
export interface ShipMoment {
  readonly leg: Leg;
  readonly pose: AirPose;
}

/** A ship's place at an instant, joining up and leaving included: before its first leg and after its last it waits at their ends; null without legs. */
export function shipMoment(ship: ShipPlan, atSeconds: number): ShipMoment | null {
  const legs = wholeFlight(ship);
  const leg = legs.find(({ endSeconds }) => atSeconds < endSeconds) ?? legs.at(-1);
  if (leg === undefined) return null;
  return { leg, pose: airPoseAt(leg.path, legShare(leg, atSeconds) * airPathLengthMetres(leg.path)) };
}
