import { geodeticFromSite } from '../earth/geodetic-from-site.ts';
import { type Site } from '../earth/site-frame.ts';
import { type WindVector, windFromVector } from '../earth/wind-vector.ts';
import { rfc3339FromMilliseconds } from '../text/utc.ts';
import { degreesFromRadians } from '../units/angle.ts';
import { knotsFromMetresPerSecond } from '../units/quantity.ts';
import { airPathLengthMetres, airPoseAt } from '../paths/air-path.ts';
import { siteFromAir } from './place.ts';
import type { Hand } from '../letters/hand.ts';
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
  /** When the text is to be read, and how high it then hangs over the site's horizon. */
  readonly readMilliseconds: number;
  readonly viewElevationRadians: number;
  readonly hand: Hand;
}

/** Vertices stand this close in time, or closer. */
const VERTEX_SECONDS = 0.5;

interface LegFeature {
  readonly type: 'Feature';
  readonly properties: Readonly<Record<string, unknown>>;
  readonly geometry: { readonly type: 'LineString'; readonly coordinates: readonly (readonly [number, number])[] };
}

/** Where a ship of a formation waits: a circle in the air, which the wind carries on from where it is at the datum. */
interface WaitingCircle {
  readonly ship: string;
  readonly centreAtDatum: readonly [longitudeDegrees: number, latitudeDegrees: number];
  readonly radiusMetres: number;
  readonly turn: 'left' | 'right';
  /** Above mean sea level. */
  readonly heightMetres: number;
}

/** A GeoJSON FeatureCollection (RFC 7946); the plan's own numbers are foreign members of the collection. */
export interface PlanGeoJson {
  readonly type: 'FeatureCollection';
  readonly text: string;
  readonly windFromDegrees: number;
  readonly windKnots: number;
  readonly trueAirspeedKnots: number;
  readonly bankLimitDegrees: number;
  readonly writingBankDegrees: number;
  readonly turningBankDegrees: number;
  /** Wings level before and after the smoke, at the least. */
  readonly runInSeconds: number;
  readonly runOutSeconds: number;
  /** How far apart ships stay however far they slip in time against each other; 0 for one alone. */
  readonly separationMetres: number;
  readonly slipSeconds: number;
  readonly letterHeightMetres: number;
  readonly hand: Hand;
  readonly site: { readonly longitudeDegrees: number; readonly latitudeDegrees: number; readonly elevationMetres: number };
  readonly layerHeightMetres: number;
  /** Azimuth the crowd looks. */
  readonly facingDegrees: number;
  readonly viewElevationDegrees: number;
  readonly datum: string;
  readonly readTime: string;
  readonly waitingCircles: readonly WaitingCircle[];
  readonly features: readonly LegFeature[];
}

/** Rounded to 1e-8 degrees, a millimetre: a pilot needs no more, and a checker can still see the turns. */
const rounded = (degrees: number): number => Math.round(degrees * 1e8) / 1e8;

const shipName = ({ shipIndex }: ShipPlan, { shipNames }: PlanGround): string => shipNames[shipIndex] ?? String(shipIndex + 1);

function waitingCircles(ship: ShipPlan, ground: PlanGround): WaitingCircle[] {
  if (ship.joinUp === undefined) return [];
  const { holdCentre, holdRadiusMetres, holdTurn } = ship.joinUp;
  const heightMetres = ground.layerHeightMetres + (ship.ownHeightStepMetres ?? 0);
  const { longitudeDegrees, latitudeDegrees } = geodeticFromSite(siteFromAir(holdCentre, ground.wind, 0), heightMetres, ground.site);
  const centreAtDatum = [rounded(longitudeDegrees), rounded(latitudeDegrees)] as const;
  return [{ ship: shipName(ship, ground), centreAtDatum, radiusMetres: holdRadiusMetres, turn: holdTurn, heightMetres }];
}

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
      ship: shipName(ship, ground),
      heightMetres: ground.layerHeightMetres + ship.heightStepMetres,
      style: leg.kind === 'smoke' ? leg.style : null,
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
  const bankDegrees = (radiusMetres: number): number => degreesFromRadians(bankForRadiusRadians(plan.trueAirspeedMetresPerSecond, radiusMetres));
  return {
    type: 'FeatureCollection',
    text: plan.text,
    windFromDegrees: degreesFromRadians(fromRadians),
    windKnots: knotsFromMetresPerSecond(speedMetresPerSecond),
    trueAirspeedKnots: knotsFromMetresPerSecond(plan.trueAirspeedMetresPerSecond),
    bankLimitDegrees: bankDegrees(tightestMetres),
    writingBankDegrees: bankDegrees(plan.writingRadiusMetres),
    turningBankDegrees: bankDegrees(plan.turningRadiusMetres),
    runInSeconds: plan.runInSeconds,
    runOutSeconds: plan.runOutSeconds,
    separationMetres: plan.separationMetres,
    slipSeconds: plan.slipSeconds,
    letterHeightMetres: plan.letterHeightMetres,
    hand: ground.hand,
    site: ground.site,
    layerHeightMetres: ground.layerHeightMetres,
    facingDegrees: (degreesFromRadians(plan.frame.facingRadians) + 360) % 360,
    viewElevationDegrees: degreesFromRadians(ground.viewElevationRadians),
    datum: rfc3339FromMilliseconds(ground.datumMilliseconds),
    readTime: rfc3339FromMilliseconds(ground.readMilliseconds),
    waitingCircles: plan.ships.flatMap((ship) => waitingCircles(ship, ground)),
    features: plan.ships.flatMap((ship) => wholeFlight(ship).map((leg) => legFeature(leg, ship, ground))),
  };
}
