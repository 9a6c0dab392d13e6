import { geodeticFromSite, type Site } from '../earth/site-frame.ts';
import { type WindVector, windFromVector } from '../earth/wind-vector.ts';
import { rfc3339FromMilliseconds } from '../text/utc.ts';
import { degreesFromRadians } from '../units/angle.ts';
import { knotsFromMetresPerSecond } from '../units/quantity.ts';
import { airPathLengthMetres, airPoseAt } from '../paths/air-path.ts';
import { siteFromAir } from './place.ts';
import { type Leg, type Plan, type ShipPlan, wholeFlight } from './plan.ts';
import { bankForRadiusRadians } from '../paths/turn.ts';

/** What ties a plan to the ground and the clock. */
export interface PlanGround {
  readonly site: Site;
  /** Height of the layer flown, above mean sea level as the site's elevation is. */
  readonly layerHeightMetres: number;
  readonly wind: WindVector;
  readonly datumMilliseconds: number;
  /** What the ships are called, lead first; a ship without a name is counted from 1. */
  readonly shipNames: readonly string[];
}

/** Vertices stand this close in time, or closer. */
const VERTEX_SECONDS = 0.5;

interface LegFeature {
  readonly type: 'Feature';
  readonly properties: Readonly<Record<string, unknown>>;
  readonly geometry: { readonly type: 'LineString'; readonly coordinates: readonly (readonly [number, number])[] };
}

/** A GeoJSON FeatureCollection (RFC 7946); the plan's own numbers are foreign members of the collection. */
export interface PlanGeoJson {
  readonly type: 'FeatureCollection';
  readonly text: string;
  readonly windFromDegrees: number;
  readonly windKnots: number;
  readonly trueAirspeedKnots: number;
  readonly bankLimitDegrees: number;
  readonly features: readonly LegFeature[];
}

/** Rounded to 1e-8 degrees, a millimetre: a pilot needs no more, and a checker can still see the turns. */
const rounded = (degrees: number): number => Math.round(degrees * 1e8) / 1e8;

function legFeature(leg: Leg, ship: ShipPlan, ground: PlanGround): LegFeature {
  const lengthMetres = airPathLengthMetres(leg.path);
  const durationSeconds = leg.endSeconds - leg.startSeconds;
  const steps = Math.max(1, Math.ceil(durationSeconds / VERTEX_SECONDS));
  const coordinates: (readonly [number, number])[] = [];
  const coordTimes: string[] = [];
  for (let step = 0; step <= steps; step += 1) {
    const atMilliseconds = Math.round(ground.datumMilliseconds + (leg.startSeconds + (durationSeconds * step) / steps) * 1000);
    // The place belongs to the time as it is written, which is rounded.
    const atSeconds = (atMilliseconds - ground.datumMilliseconds) / 1000;
    const share = durationSeconds > 0 ? (atSeconds - leg.startSeconds) / durationSeconds : 0;
    const point = siteFromAir(airPoseAt(leg.path, share * lengthMetres), ground.wind, atSeconds);
    const { longitudeDegrees, latitudeDegrees } = geodeticFromSite(point, ground.layerHeightMetres + ship.heightStepMetres, ground.site);
    coordinates.push([rounded(longitudeDegrees), rounded(latitudeDegrees)]);
    coordTimes.push(rfc3339FromMilliseconds(atMilliseconds));
  }
  return {
    type: 'Feature',
    properties: {
      ship: ground.shipNames[ship.shipIndex] ?? String(ship.shipIndex + 1),
      kind: leg.kind,
      stroke: leg.kind === 'smoke' ? leg.strokeIndex : null,
      letter: leg.kind === 'smoke' ? leg.character : null,
      letterIndex: leg.kind === 'smoke' ? leg.letterIndex : null,
      start: coordTimes[0],
      end: coordTimes.at(-1),
      coordTimes,
    },
    geometry: { type: 'LineString', coordinates },
  };
}

/**
 * The plan as it is flown over the ground in the planned wind: one LineString for each stroke and reposition, ship
 * by ship in flying order, with a time for each vertex at most half a second from the next. A ship of a formation
 * comes with the reposition that brings it to its first stroke and the one that takes it out after its last. Holds are lines of kind
 * `hold`. Heights are left out: the format wants them above the ellipsoid, the trade flies above the sea.
 */
export function planGeoJson(plan: Plan, ground: PlanGround): PlanGeoJson {
  const { fromRadians, speedMetresPerSecond } = windFromVector(ground.wind);
  const tightestMetres = Math.min(plan.writingRadiusMetres, plan.turningRadiusMetres);
  return {
    type: 'FeatureCollection',
    text: plan.text,
    windFromDegrees: degreesFromRadians(fromRadians),
    windKnots: knotsFromMetresPerSecond(speedMetresPerSecond),
    trueAirspeedKnots: knotsFromMetresPerSecond(plan.trueAirspeedMetresPerSecond),
    bankLimitDegrees: degreesFromRadians(bankForRadiusRadians(plan.trueAirspeedMetresPerSecond, tightestMetres)),
    features: plan.ships.flatMap((ship) => wholeFlight(ship).map((leg) => legFeature(leg, ship, ground))),
  };
}
