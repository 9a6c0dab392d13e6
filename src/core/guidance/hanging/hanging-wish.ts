import { type JobOfText, jobText } from '../../job/job-text.ts';
import { type JobAir } from '../../job/job-air.ts';
import type { JobShip } from '../../job/job.ts';
import { airPathLengthMetres, airPoseAt } from '../../paths/air-path.ts';
import type { Overlay } from '../../place/overlay.ts';
import { overlayRings } from '../../place/overlay-rings.ts';
import { toldArea } from '../../place/told-area.ts';
import { shipBudget } from '../../plan/budget.ts';
import type { Plan, ShipPlan } from '../../plan/plan.ts';
import { tanksOfShip } from '../../plan/ship-tanks.ts';
import { readingOf } from '../../sky/reading-of.ts';
import { feetFromMetres, metresPerSecondFromKnots } from '../../units/quantity.ts';
import { hangText } from './hang-text.ts';
import type { HangingWish } from './hanging.ts';
import type { HangingLimits } from './hanging-limits.ts';

const STEP_METRES = 150;
/** A ship turns beside its strokes: so far from them it may come. */
const MARGIN_METRES = 700;

/** How the crowd was promised to see the text; it reads from its last smoke until its first letter is likely lost. */
export function hangingWish(job: JobOfText, plan: Plan, air: JobAir): HangingWish {
  const { until } = readingOf({ plan, air }, null).window;
  return {
    facingRadians: plan.frame.facingRadians,
    viewElevationRadians: jobText(job).viewElevationRadians,
    layerAboveSiteMetres: air.layerAboveSiteMetres,
    middle: plan.frame.middle,
    writingSeconds: plan.durationSeconds,
    readingSeconds: Math.max(0, until.likelySeconds - plan.durationSeconds),
  };
}

/** The area that the controller is told: room for the text wherever the likely winds would have it hung, and for the turns beside it. */
export function toldAreaOf(wish: HangingWish, plan: Plan, air: JobAir): ReturnType<typeof toldArea> {
  return toldArea(plan, air.wind, (wind) => hangText(wish, wind), MARGIN_METRES);
}

/**
 * How far from its briefed place a text may hang so that the fuel above the reserve takes the ship there and back, in still air;
 * null while nobody has said how long climb, transit and return take. Oil is the strokes' alone, wherever they hang.
 */
export function farthestMetres(ship: JobShip, shipPlan: ShipPlan): number | null {
  const tanks = tanksOfShip(ship);
  const { fuelLeftLitres, fuelReserveLitres, wholeFlightCounted } = shipBudget(shipPlan, tanks);
  if (!wholeFlightCounted || !(tanks.fuelLitresPerSecond > 0)) return null;
  return (Math.max(0, fuelLeftLitres - fuelReserveLitres) / tanks.fuelLitresPerSecond / 2) * metresPerSecondFromKnots(ship.trueAirspeedKnots);
}

/** What was agreed of a job: the area told, the areas of its overlay at the layer's height, and what the fuel allows. */
export function hangingLimits(wish: HangingWish, plan: Plan, air: JobAir, overlay: Overlay | null, farthest: number | null): HangingLimits {
  const height = feetFromMetres(air.layerHeightMetres);
  return {
    inside: toldAreaOf(wish, plan, air),
    outside: overlay === null ? [] : overlayRings(overlay, air.site, air.layerHeightMetres, height),
    marginMetres: MARGIN_METRES,
    ...(farthest === null ? {} : { farthestMetres: farthest }),
    flown: plan.ships.flatMap(({ legs }) =>
      legs.flatMap((leg) => {
        if (leg.kind !== 'smoke') return [];
        const lengthMetres = airPathLengthMetres(leg.path);
        const count = Math.max(1, Math.ceil(lengthMetres / STEP_METRES));
        return Array.from({ length: count + 1 }, (_, index) => {
          const { airEastMetres, airNorthMetres } = airPoseAt(leg.path, (lengthMetres * index) / count);
          return { airEastMetres, airNorthMetres, atSeconds: leg.startSeconds + ((leg.endSeconds - leg.startSeconds) * index) / count };
        });
      }),
    ),
  };
}
