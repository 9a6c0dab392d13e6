import { type SitePoint, siteDistanceMetres } from '../earth/site-frame.ts';
import { type WindVector, windSpeedMetresPerSecond } from '../earth/wind-vector.ts';
import { airPathLengthMetres, type AirPoint, airPoseAt } from '../paths/air-path.ts';
import { siteFromAir } from '../plan/place.ts';
import type { Leg, Plan, ShipPlan } from '../plan/plan.ts';
import { TIME_CHECK_SECONDS } from '../plan/radio-script.ts';
import { convexHull, type GroundCircle, smallestCircle, widenedHull } from './area.ts';
import { type SeenPoint, seenFromSite } from '../sky/perspective.ts';

/** Where the text's middle is at a time, over the ground and as the site sees it. */
export interface CorridorStation extends SeenPoint {
  readonly atSeconds: number;
  readonly middle: SitePoint;
  /** Over the ground, from the site. */
  readonly distanceMetres: number;
}

/** Where a text is from its first smoke until it fades, and where its ships fly. */
export interface DriftCorridor {
  /** Over the ground, where the first smoke must come on at the datum. */
  readonly firstSmoke: SitePoint;
  /** From the first smoke to the end, evenly spaced in time, both ends included. */
  readonly stations: readonly CorridorStation[];
  /** How far the wind carries the text in that time. */
  readonly driftedMetres: number;
  /** Convex, anticlockwise: all smoke from laying to fading, its spread included. */
  readonly smokeArea: readonly SitePoint[];
  /** Convex, anticlockwise: where the ships fly between the first smoke and the last; those of a formation also from their circles and out. */
  readonly flightArea: readonly SitePoint[];
  /** Smallest circles round the two, and round both. */
  readonly smokeCircle: GroundCircle;
  readonly flightCircle: GroundCircle;
  readonly wholeCircle: GroundCircle;
}

const STATION_COUNT = 25;
const STEP_METRES = 100;
const CIRCLE_CORNERS = 16;

/**
 * The corridor of a plan in a steady wind.
 *
 * Worked: in 12.5 kt for 75 minutes a text drifts 28.9 km, 18 statute miles: common practice says 10 to 20.
 *
 * @param untilSeconds since the datum, when the smoke is gone
 * @param spreadMetres how wide the smoke has become by then; twice this is added on all sides
 * @throws RangeError for a plan without smoke, or an end before the last smoke
 */
export function driftCorridor(plan: Plan, wind: WindVector, layerAboveSiteMetres: number, untilSeconds: number, spreadMetres: number): DriftCorridor {
  if (!(untilSeconds >= plan.durationSeconds && untilSeconds < Infinity)) {
    throw new RangeError(`untilSeconds must be at or after the last smoke at ${plan.durationSeconds} s, not ${untilSeconds}`);
  }
  const flown: SitePoint[] = [];
  const smoke: SitePoint[] = [];
  let firstSmoke: SitePoint | null = null;
  let firstSeconds = Infinity;
  for (const leg of plan.ships.flatMap((ship) => ship.legs)) {
    for (const { pose, atSeconds } of alongLeg(leg)) {
      const place = siteFromAir(pose, wind, atSeconds);
      flown.push(place);
      // In a steady wind smoke moves straight, so where it is laid and where it ends bound its way.
      if (leg.kind === 'smoke') smoke.push(place, siteFromAir(pose, wind, untilSeconds));
      if (leg.kind === 'smoke' && atSeconds < firstSeconds) {
        firstSeconds = atSeconds;
        firstSmoke = place;
      }
    }
  }
  for (const ship of plan.ships) flown.push(...besidesWriting(ship, wind));
  if (firstSmoke === null) throw new RangeError('the plan has no smoke');
  const smokeArea = widenedHull(convexHull(smoke), 2 * spreadMetres);
  const flightArea = convexHull(flown);
  return {
    firstSmoke,
    stations: stationsOf(plan, wind, layerAboveSiteMetres, untilSeconds),
    driftedMetres: windSpeedMetresPerSecond(wind) * untilSeconds,
    smokeArea,
    flightArea,
    smokeCircle: smallestCircle(smokeArea),
    flightCircle: smallestCircle(flightArea),
    wholeCircle: smallestCircle([...smokeArea, ...flightArea]),
  };
}

/** Where a leg leads through the air and when, every {@link STEP_METRES}, both ends included. */
function alongLeg({ path, startSeconds, endSeconds }: Leg): { readonly pose: AirPoint; readonly atSeconds: number }[] {
  const lengthMetres = airPathLengthMetres(path);
  const count = Math.max(1, Math.ceil(lengthMetres / STEP_METRES));
  return Array.from({ length: count + 1 }, (_, index) => {
    const share = index / count;
    return { pose: airPoseAt(path, share * lengthMetres), atSeconds: startSeconds + share * (endSeconds - startSeconds) };
  });
}

/**
 * Where a ship of a formation is besides its strokes and the ways between them: on its circle, which drifts, from the time check to when
 * it leaves, on every way from there into its part, and on its way out.
 */
function besidesWriting({ joinUp, entries = [], departure }: ShipPlan, wind: WindVector): SitePoint[] {
  const ways = [joinUp?.leg, departure, ...entries.map(({ leg }) => leg)].flatMap((leg) => leg ?? []);
  const points = ways.flatMap((leg) => alongLeg(leg).map(({ pose, atSeconds }) => siteFromAir(pose, wind, atSeconds)));
  if (joinUp === undefined) return points;
  const { holdCentre, holdRadiusMetres, leg } = joinUp;
  const round = Array.from({ length: CIRCLE_CORNERS }, (_, index) => (2 * Math.PI * index) / CIRCLE_CORNERS).map((angle) => ({
    // The corners of a polygon that holds the circle.
    airEastMetres: holdCentre.airEastMetres + (holdRadiusMetres * Math.cos(angle)) / Math.cos(Math.PI / CIRCLE_CORNERS),
    airNorthMetres: holdCentre.airNorthMetres + (holdRadiusMetres * Math.sin(angle)) / Math.cos(Math.PI / CIRCLE_CORNERS),
  }));
  const leavesSeconds = Math.max(leg.startSeconds, ...entries.map((entry) => entry.leg.startSeconds));
  return [...points, ...[Math.min(TIME_CHECK_SECONDS, leg.startSeconds), leavesSeconds].flatMap((at) => round.map((point) => siteFromAir(point, wind, at)))];
}

function stationsOf(plan: Plan, wind: WindVector, layerAboveSiteMetres: number, untilSeconds: number): CorridorStation[] {
  return Array.from({ length: STATION_COUNT }, (_, index) => {
    const atSeconds = (untilSeconds * index) / (STATION_COUNT - 1);
    const middle = siteFromAir(plan.frame.middle, wind, atSeconds);
    const seen = seenFromSite(middle, layerAboveSiteMetres);
    return { atSeconds, middle, distanceMetres: siteDistanceMetres(middle), ...seen };
  });
}
