import type { AirPath, AirPoint } from './air-path.ts';
import type { Plan } from './plan.ts';

/**
 * The same plan with its text's middle elsewhere in the air-mass frame: order, times and costs do not depend on where
 * the text hangs, only where it must be flown.
 */
export function movedPlan(plan: Plan, middle: AirPoint): Plan {
  const east = middle.airEastMetres - plan.frame.middle.airEastMetres;
  const north = middle.airNorthMetres - plan.frame.middle.airNorthMetres;
  const moved = (path: AirPath): AirPath => ({
    ...path,
    start: { ...path.start, airEastMetres: path.start.airEastMetres + east, airNorthMetres: path.start.airNorthMetres + north },
  });
  return {
    ...plan,
    frame: { ...plan.frame, middle },
    ships: plan.ships.map((ship) => ({ ...ship, legs: ship.legs.map((leg) => ({ ...leg, path: moved(leg.path) })) })),
  };
}
