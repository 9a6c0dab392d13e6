import type { AirPoint } from '../paths/air-path.ts';
import type { Leg, Plan } from './plan.ts';

/**
 * The same plan with its text's middle elsewhere in the air-mass frame: order, times and costs do not depend on where
 * the text hangs, only where it must be flown.
 */
export function movedPlan(plan: Plan, middle: AirPoint): Plan {
  const east = middle.airEastMetres - plan.frame.middle.airEastMetres;
  const north = middle.airNorthMetres - plan.frame.middle.airNorthMetres;
  const movedPoint = <Point extends AirPoint>(point: Point): Point => ({
    ...point,
    airEastMetres: point.airEastMetres + east,
    airNorthMetres: point.airNorthMetres + north,
  });
  const movedLeg = <Moved extends Leg>(leg: Moved): Moved => ({ ...leg, path: { ...leg.path, start: movedPoint(leg.path.start) } });
  return {
    ...plan,
    frame: { ...plan.frame, middle },
    ships: plan.ships.map((ship) => ({
      ...ship,
      legs: ship.legs.map(movedLeg),
      ...(ship.joinUp ? { joinUp: { ...ship.joinUp, holdCentre: movedPoint(ship.joinUp.holdCentre), leg: movedLeg(ship.joinUp.leg) } } : {}),
      ...(ship.departure ? { departure: movedLeg(ship.departure) } : {}),
      ...(ship.entries ? { entries: ship.entries.map((entry) => ({ ...entry, leg: movedLeg(entry.leg) })) } : {}),
    })),
  };
}
