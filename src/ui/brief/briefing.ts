import { placeName } from '../../core/job/crowd-place.ts';
import { bearingDistance } from '../../core/earth/bearing-distance.ts';
import { jobVariation } from '../../core/job/job-variation.ts';
import { geodeticFromSite } from '../../core/earth/geodetic-from-site.ts';
import { type GeodeticPoint, type SitePoint } from '../../core/earth/site-frame.ts';
import type { Job } from '../../core/job/job.ts';
import { hangingWish, toldAreaOf } from '../../core/guidance/hanging/hanging-wish.ts';
import { type GroundCircle, smallestCircle } from '../../core/place/area.ts';
import { siteFromAir } from '../../core/plan/place.ts';
import type { ShipPlan } from '../../core/plan/plan.ts';
import type { PlannedJob } from '../../core/plan/planned-job.ts';
import type { DriftCorridor } from '../../core/place/drift-corridor.ts';
import { toldCorridor } from '../../core/place/told-corridor.ts';
import { readingOf } from '../../core/sky/reading-of.ts';
import type { ReadingWindow } from '../../core/sky/reading-window.ts';
import type { SmokeCalibration } from '../../core/sky/smoke-calibration.ts';
import { bearingFromDirection, degreesFromRadians, positiveDegrees } from '../../core/units/angle.ts';
import { formatBearing, formatLatitude, formatLongitude } from '../../core/text/number-formats.ts';
import { bothClocks, dayText } from '../words/clock.ts';
import type { UnitText } from '../../core/text/unit-text.ts';

/** Everything the pages of a brief are made of. */
export interface Briefing {
  readonly job: Job;
  readonly planned: PlannedJob;
  readonly corridor: DriftCorridor;
  /** What the ships need over the ground: for a ship alone with room for the winds that may be found, for several as planned. */
  readonly shipsArea: readonly SitePoint[];
  readonly shipsCircle: GroundCircle;
  /** Of the first smoke: the datum that clocks are counted from. */
  readonly datumMilliseconds: number;
  readonly readMilliseconds: number;
  /** Until when the smoke's drift is told: as long as it may be read, and some time after the last stroke at least. */
  readonly goneMilliseconds: number;
  /** East positive; null where the model does not reach: headings are true then, and say so. */
  readonly variationDegrees: number | null;
  /** The day of a variation that was entered by hand; null for the model's. */
  readonly variationByHandOf: string | null;
  /** How long it likely reads, and which letter goes first. */
  readonly window: ReadingWindow;
  readonly geodetic: (point: SitePoint) => GeodeticPoint;
}

/** What the pages need of a planned job; the smoke as a debrief measured it, null for the published values. */
export function briefingOf(planned: PlannedJob, measured: SmokeCalibration | null): Briefing {
  const { job } = planned;
  const { plan, air, readSeconds } = planned;
  const readMilliseconds = Date.parse(job.readTime);
  const datumMilliseconds = readMilliseconds - readSeconds * 1000;
  const { window } = readingOf(planned, measured);
  const { corridor, untilSeconds } = toldCorridor(plan, air, window);
  const variation = jobVariation(job, air.layerHeightMetres, readMilliseconds);
  const shipsArea = plan.ships.length === 1 ? toldAreaOf(hangingWish(job, plan, air), plan, air) : corridor.flightArea;
  return {
    job,
    planned,
    corridor,
    datumMilliseconds,
    readMilliseconds,
    goneMilliseconds: datumMilliseconds + untilSeconds * 1000,
    variationDegrees: variation.ok ? variation.variationDegrees : null,
    variationByHandOf: variation.byHandOf,
    window,
    shipsArea,
    shipsCircle: smallestCircle(shipsArea),
    geodetic: (point) => geodeticFromSite(point, air.layerHeightMetres, air.site),
  };
}

/** A true heading as the compass shows it, in [0, 360); true where the variation is not known. */
export function compassDegrees(briefing: Briefing, headingRadians: number): number {
  return positiveDegrees(degreesFromRadians(headingRadians) - (briefing.variationDegrees ?? 0));
}

/** The same from a plane direction. */
export function compassFromDirection(briefing: Briefing, directionRadians: number): number {
  return compassDegrees(briefing, bearingFromDirection(directionRadians));
}

/** The stroke a ship begins with. */
export function firstStroke({ legs }: ShipPlan): ShipPlan['legs'][number] | undefined {
  return legs.find(({ kind }) => kind === 'smoke');
}

/** Where a ship's own first smoke comes on: its position, and its bearing and distance from the job's own points or the site. */
export function firstSmokeText(briefing: Briefing, ship: ShipPlan, units: UnitText): string {
  const { job, planned, corridor, geodetic } = briefing;
  const first = firstStroke(ship);
  const place = geodetic(first === undefined ? corridor.firstSmoke : siteFromAir(first.path.start, planned.air.wind, first.startSeconds));
  const points = job.namedPoints.length === 0 ? [job.site] : job.namedPoints.slice(0, 2);
  const from = points.map((point) => {
    const { bearingRadians, distanceMetres } = bearingDistance(point, place);
    return `${formatBearing(compassDegrees(briefing, bearingRadians))}°${briefing.variationDegrees === null ? 'T' : 'M'} ${units.distance.text(distanceMetres, 1)} from ${placeName(point.name)}`;
  });
  return `${formatLatitude(place.latitudeDegrees)} ${formatLongitude(place.longitudeDegrees)}, ${from.join(', ')}`;
}

/** A time of the brief in UTC and at the site: `17:30:00 UTC (13:30 EDT)`. */
export function briefClock({ job }: Briefing, milliseconds: number): string {
  return bothClocks(milliseconds, job.site.timeZone);
}

/** The day of the brief at the site: `Saturday, 19 June 2027`. */
export function briefDay({ job, readMilliseconds }: Briefing): string {
  return dayText(readMilliseconds, job.site.timeZone);
}
