import { steepestShearAt } from '../earth/steepest-shear.ts';
import { type ShearVector, temperatureAt, windAt, type WindAtHeight, type WindProfile } from '../earth/wind-profile.ts';
import { CALM, windSpeedMetresPerSecond } from '../earth/wind-vector.ts';
import { placeTextMiddle } from '../plan/place.ts';
import type { Plan } from '../plan/plan.ts';
import { knotsFromMetresPerSecond, metresFromFeet } from '../units/quantity.ts';
import type { CloudLayer } from '../job/conditions-si.ts';
import { type CloudStanding, cloudStanding, type OxygenNeed, oxygenNeed } from './air-rules.ts';
import { readableAt } from '../sky/readable-at.ts';
import type { ReadableRadius } from '../sky/readable-radius.ts';
import { type ReadingWindow, readingWindow } from '../sky/reading-window.ts';
import { SMOKE_RANGE, type SmokeRange } from '../sky/smoke-range.ts';
import { type Trail, trailsFromPlan } from '../sky/trail.ts';

/** What speaks for or against a layer; the numbers stand beside it in {@link LayerChoice}. */
export type LayerReason =
  | 'below the site'
  | 'low over the crowd'
  | 'in reach of convection'
  | 'in cloud'
  | 'too near cloud'
  | 'cloud top unknown'
  | 'hidden from below'
  | 'partly hidden'
  | 'never reads whole'
  | 'reads long'
  | 'reads briefly'
  | 'strong wind'
  | 'strong shear'
  | 'wind not known'
  | 'wind held from another height'
  | 'light and variable'
  | 'oxygen advised'
  | 'oxygen required'
  | 'stable air'
  | 'seen from far';

export interface LayerChoice {
  readonly heightMetres: number;
  readonly aboveSiteMetres: number;
  readonly wind: WindAtHeight;
  /** Null where the winds do not tell. */
  readonly shear: ShearVector | null;
  readonly temperatureKelvin: number;
  readonly temperatureSource: 'winds' | 'standard atmosphere';
  readonly cloud: CloudStanding;
  readonly oxygen: OxygenNeed;
  /** Null where there is nothing to judge: the layer is not above the site. */
  readonly window: ReadingWindow | null;
  /** At the read time, in the likely case. */
  readonly readable: ReadableRadius | null;
  readonly standing: 'usable' | 'poor' | 'unusable';
  /** Higher is better; compares layers of one call only. */
  readonly score: number;
  readonly reasons: readonly LayerReason[];
}

export interface LayerRequest {
  /** Any plan of the text; its place is moved for each layer so that the text hangs as wished when it is read. */
  readonly plan: Plan;
  readonly heightsMetres: readonly number[];
  readonly siteElevationMetres: number;
  readonly viewElevationRadians: number;
  /** From first smoke to the read time. */
  readonly readSeconds: number;
  readonly profile: WindProfile | null;
  /** Null when clouds were not looked at. */
  readonly clouds: readonly CloudLayer[] | null;
  readonly visibilityMetres: number | null;
  /** Time spent at the layer, for the oxygen rule. */
  readonly secondsAtHeight: number;
  readonly smoke?: SmokeRange;
}

/** The layers a text is usually written in, 7,000 to 17,000 ft above the sea, every 500 ft. */
export const USUAL_LAYERS_METRES: readonly number[] = Array.from({ length: 21 }, (_, index) => metresFromFeet(7_000 + 500 * index));

/** Smoke that low is in the air a crowd's own airport uses, and convection reaches it; common practice, no source. */
const LOW_OVER_CROWD_METRES = metresFromFeet(5_000);
/** A reference entry on the trade has at least 10,000 ft to be above the day's convection; reckoned from the ground. */
const CONVECTION_METRES = metresFromFeet(10_000);
const STRONG_WIND_KNOTS = 25;
const STRONG_SHEAR_PER_SECOND = 0.01;
/** A fall of temperature slower than this resists mixing: half the dry adiabatic lapse. */
const STABLE_LAPSE_KELVIN_PER_METRE = 0.0049;
const LAPSE_SPAN_METRES = 300;

/** How much each reason weighs against a minute of reading; a judgement, not a law of nature. */
const WEIGHTS: Partial<Record<LayerReason, number>> = {
  'low over the crowd': -6,
  'in reach of convection': -3,
  'cloud top unknown': -6,
  'partly hidden': -8,
  'reads briefly': -4,
  'strong wind': -4,
  'strong shear': -4,
  'wind not known': -8,
  'wind held from another height': -1,
  'light and variable': -1,
  'oxygen advised': -1,
  'oxygen required': -4,
  'stable air': 2,
  'seen from far': 1,
};

const UNUSABLE: readonly LayerReason[] = ['below the site', 'in cloud', 'too near cloud', 'hidden from below', 'never reads whole'];
const POOR: readonly LayerReason[] = ['low over the crowd', 'cloud top unknown', 'partly hidden', 'reads briefly', 'strong wind', 'wind not known'];

/** The layers asked for, best first: usable before poor before unusable, then by score, then lower first. */
export function rankLayers(request: LayerRequest): LayerChoice[] {
  const trails = trailsFromPlan(request.plan, request.plan.letterHeightMetres / 12);
  const order = ['usable', 'poor', 'unusable'];
  return request.heightsMetres
    .map((heightMetres) => judgeLayer(heightMetres, trails, request))
    .sort((one, other) => order.indexOf(one.standing) - order.indexOf(other.standing) || other.score - one.score || one.heightMetres - other.heightMetres);
}

function judgeLayer(heightMetres: number, trails: readonly Trail[], request: LayerRequest): LayerChoice {
  const { profile, clouds, siteElevationMetres, secondsAtHeight } = request;
  const aboveSiteMetres = heightMetres - siteElevationMetres;
  const wind: WindAtHeight = profile === null ? { ok: false, reason: 'no winds are given' } : windAt(profile, heightMetres);
  const shear = profile === null ? null : steepestShearAt(profile, heightMetres);
  const { temperatureKelvin, source } = temperatureAt(profile, heightMetres);
  const cloud = cloudStanding(heightMetres, clouds);
  const oxygen = oxygenNeed(heightMetres, secondsAtHeight);
  const seen = aboveSiteMetres > 0 ? look(aboveSiteMetres, wind, shear, trails, request) : null;
  const common = { heightMetres, aboveSiteMetres, wind, shear, temperatureKelvin, temperatureSource: source, cloud, oxygen };
  const reasons = reasonsFor({ ...common, window: seen?.window ?? null, readable: seen?.readable ?? null }, request);
  const standing = reasons.some((reason) => UNUSABLE.includes(reason)) ? 'unusable' : reasons.some((reason) => POOR.includes(reason)) ? 'poor' : 'usable';
  // Past twenty minutes nobody counts.
  const minutes = Math.min(20, seen === null ? 0 : (seen.window.until.likelySeconds - seen.window.fromSeconds) / 60);
  const score = reasons.reduce((sum, reason) => sum + (WEIGHTS[reason] ?? 0), minutes);
  return { ...common, window: seen?.window ?? null, readable: seen?.readable ?? null, standing, score, reasons };
}

function look(
  aboveSiteMetres: number,
  wind: WindAtHeight,
  shear: ShearVector | null,
  trails: readonly Trail[],
  request: LayerRequest,
): { window: ReadingWindow; readable: ReadableRadius } {
  const { plan, viewElevationRadians, readSeconds, visibilityMetres } = request;
  const smoke = request.smoke ?? SMOKE_RANGE;
  const vector = wind.ok ? wind.wind : CALM;
  const wish = { facingRadians: plan.frame.facingRadians, viewElevationRadians, layerAboveSiteMetres: aboveSiteMetres };
  const middle = placeTextMiddle(wish, vector, readSeconds);
  const east = middle.airEastMetres - plan.frame.middle.airEastMetres;
  const north = middle.airNorthMetres - plan.frame.middle.airNorthMetres;
  const placed = trails.map((trail) => ({
    ...trail,
    points: trail.points.map((point) => ({ ...point, airEastMetres: point.airEastMetres + east, airNorthMetres: point.airNorthMetres + north })),
  }));
  const { letterHeightMetres } = plan;
  const { facingRadians } = wish;
  const window = readingWindow(placed, {
    letterHeightMetres,
    wind: vector,
    shear,
    layerAboveSiteMetres: aboveSiteMetres,
    visibilityMetres,
    smoke,
    facingRadians,
  });
  const readable = readableAt(placed, Math.max(readSeconds, window.fromSeconds), {
    letterHeightMetres,
    aboveGroundMetres: aboveSiteMetres,
    shear,
    visibilityMetres,
    smoke: smoke.likely,
  });
  return { window, readable };
}

function reasonsFor(layer: Omit<LayerChoice, 'standing' | 'score' | 'reasons'>, request: LayerRequest): LayerReason[] {
  const reasons: LayerReason[] = [];
  const add = (when: boolean, reason: LayerReason): void => {
    if (when) reasons.push(reason);
  };
  const { wind, shear, cloud, oxygen, window, readable, aboveSiteMetres } = layer;
  add(aboveSiteMetres <= 0, 'below the site');
  add(aboveSiteMetres > 0 && aboveSiteMetres < LOW_OVER_CROWD_METRES, 'low over the crowd');
  add(aboveSiteMetres > 0 && aboveSiteMetres < CONVECTION_METRES, 'in reach of convection');
  add(cloud === 'in cloud', 'in cloud');
  add(cloud === 'too near', 'too near cloud');
  add(cloud === 'unknown top', 'cloud top unknown');
  add(cloud === 'hidden from below', 'hidden from below');
  add(cloud === 'partly hidden', 'partly hidden');
  if (window !== null) {
    const seconds = window.until.likelySeconds - window.fromSeconds;
    add(seconds <= 0, 'never reads whole');
    add(seconds > 0 && seconds < 180, 'reads briefly');
    add(seconds >= 600, 'reads long');
  }
  if (wind.ok) {
    add(knotsFromMetresPerSecond(windSpeedMetresPerSecond(wind.wind)) > STRONG_WIND_KNOTS, 'strong wind');
    add(wind.heldMetres !== 0, 'wind held from another height');
    add(!wind.directionKnown, 'light and variable');
  }
  add(!wind.ok, 'wind not known');
  add(shear !== null && Math.hypot(shear.eastPerSecond, shear.northPerSecond) > STRONG_SHEAR_PER_SECOND, 'strong shear');
  add(oxygen === 'advised', 'oxygen advised');
  add(oxygen === 'required' || oxygen === 'required throughout', 'oxygen required');
  add(isStable(layer.heightMetres, request.profile), 'stable air');
  add(readable !== null && readable.radiusMetres > 15_000, 'seen from far');
  return reasons;
}

/** Whether the winds' own temperatures say that the air around a height resists mixing. */
function isStable(heightMetres: number, profile: WindProfile | null): boolean {
  const above = temperatureAt(profile, heightMetres + LAPSE_SPAN_METRES / 2);
  const below = temperatureAt(profile, heightMetres - LAPSE_SPAN_METRES / 2);
  if (above.source !== 'winds' || below.source !== 'winds') return false;
  return (below.temperatureKelvin - above.temperatureKelvin) / LAPSE_SPAN_METRES < STABLE_LAPSE_KELVIN_PER_METRE;
}
