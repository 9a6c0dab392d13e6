import { circleKeptClearMetres } from '../../plan/circle-kept-clear.ts';
import { type Plan, wholeFlight } from '../../plan/plan.ts';
import type { AirPath } from '../../paths/air-path.ts';
import type { FormationSetup } from './formation-setup.ts';

/**
 * What one ship of a plan must know of the formation; null for a ship alone, and for a plan of before the timetable.
 *
 * @param layerHeightMetres the job's, above mean sea level
 */
export function formationSetupFromPlan(plan: Plan, shipIndex: number, layerHeightMetres: number): FormationSetup | null {
  const ship = plan.ships[shipIndex];
  if (ship?.joinUp === undefined || ship.departure === undefined || ship.entries === undefined || ship.ownHeightStepMetres === undefined) return null;
  const ways: (AirPath | null)[] = [];
  let way: AirPath | null = null;
  for (const leg of ship.legs) {
    if (leg.kind === 'smoke') {
      ways.push(way);
      way = null;
    } else way = leg.path;
  }
  return {
    ownHeightMetres: layerHeightMetres + ship.ownHeightStepMetres,
    separationMetres: plan.separationMetres,
    textMiddle: plan.frame.middle,
    entries: ship.entries.map(({ strokeIndex, leg, windows }) => ({ strokeIndex, path: leg.path, leaveSeconds: leg.startSeconds, windows })),
    ways,
    departure: ship.departure.path,
    others: plan.ships.flatMap((other) =>
      other.shipIndex === shipIndex || other.joinUp === undefined
        ? []
        : [
            {
              shipIndex: other.shipIndex,
              holdCentre: other.joinUp.holdCentre,
              keptClearMetres: circleKeptClearMetres(other.joinUp, plan.separationMetres),
              legs: wholeFlight(other).map(({ path, startSeconds, endSeconds }) => ({ path, startSeconds, endSeconds })),
            },
          ],
    ),
  };
}
