import { jobVariation } from '../job/job-variation.ts';
import { geodeticFromSite } from '../earth/geodetic-from-site.ts';
import { steepestShearAt } from '../earth/steepest-shear.ts';
import { sunDay } from '../earth/sun.ts';
import { parseWindsAloft } from '../job/winds-aloft.ts';
import { isEntered } from '../job/not-entered.ts';
import { bulletinUse } from '../job/winds-aloft-times.ts';
import { shipBudget } from '../plan/budget.ts';
import { heightStepsOf, type Plan, wholeFlight } from '../plan/plan.ts';
import { type ShipMotion, shipMotion } from '../plan/ship-motion.ts';
import { driftCorridor } from '../place/drift-corridor.ts';
import { facingGrid } from '../place/facing-choice.ts';
import { type GoNoGo, goNoGo } from './go-no-go.ts';
import { type AreaContact, areasTouched } from '../place/overlay-contact.ts';
import { type RulesOfTheAir, US_RULES } from '../place/rules-of-the-air.ts';
import type { Overlay } from '../place/overlay.ts';
import { radiansFromDegrees } from '../units/angle.ts';
import { feetFromMetres, litresFromGallons, metresFromNauticalMiles } from '../units/quantity.ts';
import { dayRequest } from './day-grid.ts';
import { loadings } from './weight-balance.ts';
import type { PlannedJob } from '../plan/planned-job.ts';
import type { Reading } from '../sky/reading-of.ts';
import { tanksOfShip } from '../plan/ship-tanks.ts';

/** Climb to the layer and back down; an assumption for the oxygen rule's half hour. */
const CLIMB_SECONDS = 900;

const FUEL_PATHS = ['ships.fuelGallons', 'ships.fuelGallonsPerHour', 'ships.fuelReserveMinutes'];

const STEP_SECONDS = 0.5;
const AREAS_WITHIN_METRES = metresFromNauticalMiles(5);

/** The go/no-go of a planned job with what was looked up on the day. */
export function plannedChecks(planned: PlannedJob, sky: Reading, overlay: Overlay | null, rules: RulesOfTheAir = US_RULES): GoNoGo {
  const { plan, job, air, readSeconds } = planned;
  const readMilliseconds = Date.parse(job.readTime);
  const [cell] = facingGrid({ ...dayRequest(planned, sky), facingsRadians: [plan.frame.facingRadians], readTimesMilliseconds: [readMilliseconds] });
  return goNoGo({
    rules,
    siteElevationMetres: air.site.elevationMetres,
    layerHeightMetres: air.layerHeightMetres,
    // Whole milliseconds, so that rounding never lets the read time fall before the last stroke.
    firstSmokeMilliseconds: Math.floor(readMilliseconds - readSeconds * 1000),
    readMilliseconds,
    secondsAtHeight: plan.durationSeconds + CLIMB_SECONDS,
    wind: air.found,
    shear: air.profile === null || !air.found.ok ? null : steepestShearAt(air.profile, air.layerHeightMetres),
    windsUse: bulletinPeriod(job.windsText, readMilliseconds),
    clouds: air.clouds,
    visibilityMetres: air.visibilityMetres,
    sunDay: sunDay(job.site, readMilliseconds),
    sunMarginRadians: cell?.sunMarginRadians ?? null,
    glareShare: cell?.glareShare ?? null,
    budgets: plan.ships.flatMap((ship) => {
      const data = job.ships[ship.shipIndex];
      const known = FUEL_PATHS.every((path) => isEntered(job, path));
      if (data === undefined) return [];
      const tanks = tanksOfShip(data);
      const budget = shipBudget(ship, tanks);
      return [
        {
          ...budget,
          fuelKnown: known,
          bingoLitres: data.bingoFuelGallons === null ? null : litresFromGallons(data.bingoFuelGallons),
          fuelAfterWritingLitres: budget.fuelLeftLitres + tanks.fuelLitresPerSecond * (tanks.otherFlyingSeconds ?? 0),
        },
      ];
    }),
    separation: leastSeparation(plan),
    steepestBankRadians: radiansFromDegrees(Math.max(...job.ships.map(({ maximumBankDegrees }) => maximumBankDegrees))),
    window: sky.window,
    areas: overlay === null ? null : flownAreas(planned, overlay),
    loadings: job.ships.map((ship) => ({ name: ship.name, loadings: loadings(ship) })),
    permissions: job.booking.permissions,
    callMilliseconds: job.booking.callTime === null ? null : Date.parse(job.booking.callTime),
    variation: jobVariation(job, air.layerHeightMetres, readMilliseconds),
  });
}

/** The no-go areas within {@link AREAS_WITHIN_METRES} of where the ships fly, at the layer's height and its steps. */
function flownAreas({ plan, air }: PlannedJob, overlay: Overlay): AreaContact[] {
  const { flightArea } = driftCorridor(plan, air.wind, air.layerAboveSiteMetres, plan.durationSeconds, 0);
  const flown = flightArea.map((point) => geodeticFromSite(point, air.layerHeightMetres, air.site));
  const { lowestMetres, highestMetres } = heightStepsOf(plan);
  const lowestFeet = feetFromMetres(air.layerHeightMetres + lowestMetres);
  const highestFeet = feetFromMetres(air.layerHeightMetres + highestMetres);
  return areasTouched(overlay, flown, true, lowestFeet, highestFeet, AREAS_WITHIN_METRES);
}

/** The least distance between two ships as planned, without slips, to about 30 m; null with one ship. */
function leastSeparation(plan: Plan): { readonly leastMetres: number; readonly wantedMetres: number } | null {
  if (plan.ships.length < 2) return null;
  const motions = plan.ships.map((ship) => shipMotion(wholeFlight(ship), STEP_SECONDS));
  let leastMetres = Infinity;
  for (const [index, one] of motions.entries()) {
    for (const other of motions.slice(index + 1)) leastMetres = Math.min(leastMetres, leastBetween(one, other));
  }
  return { leastMetres, wantedMetres: plan.separationMetres };
}

function leastBetween(one: ShipMotion, other: ShipMotion): number {
  const shift = Math.round((one.firstSeconds - other.firstSeconds) / STEP_SECONDS);
  let least = Infinity;
  for (let sample = 0; sample < one.eastMetres.length; sample += 1) {
    const [east, north, otherEast, otherNorth] = [
      one.eastMetres[sample],
      one.northMetres[sample],
      other.eastMetres[sample + shift],
      other.northMetres[sample + shift],
    ];
    if (east === undefined || north === undefined || otherEast === undefined || otherNorth === undefined) continue;
    least = Math.min(least, Math.hypot(east - otherEast, north - otherNorth));
  }
  return least;
}

function bulletinPeriod(windsText: string, readMilliseconds: number): ReturnType<typeof bulletinUse> {
  if (windsText === '') return null;
  const parsed = parseWindsAloft(windsText);
  return parsed.ok ? bulletinUse(parsed.bulletin, readMilliseconds) : null;
}
