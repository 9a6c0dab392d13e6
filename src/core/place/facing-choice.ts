import { isGlare, SUN_UP_RADIANS } from '../earth/glare.ts';
import type { Site, SitePointUp } from '../earth/site-frame.ts';
import { type SkyDirection, sunAt } from '../earth/sun.ts';
import { windFromVector, type WindVector } from '../earth/wind-vector.ts';
import { airDirectionFromLetter } from '../paths/letter-frame.ts';
import type { Plan } from '../plan/plan.ts';
import { bearingFromDirection, positiveRadians, radiansFromDegrees, signedRadians } from '../units/angle.ts';
import { metresPerSecondFromKnots } from '../units/quantity.ts';
import { outlineSeparation, type TextOutline, textOutline } from '../sky/text-outline.ts';
import { trailPieces, trailsFromPlan } from '../sky/trail.ts';

/** The crowd must not look nearer to the sun than this (common practice, no source: out of the sun). */
export const SUN_MARGIN_RADIANS = radiansFromDegrees(25);

/** One stroke as its bits: directions in the letter frame with their lengths. */
export type StrokeDirections = readonly { readonly directionRadians: number; readonly lengthMetres: number }[];

export interface FacingRequest {
  readonly site: Site;
  readonly textWidthMetres: number;
  readonly letterHeightMetres: number;
  readonly layerAboveSiteMetres: number;
  readonly viewElevationRadians: number;
  readonly wind: WindVector;
  /** From first smoke to the read time. */
  readonly writingSeconds: number;
  /** From the read time to the end of reading. */
  readonly readingSeconds: number;
  readonly strokes: readonly StrokeDirections[];
  /** True when the planner may fly a stroke the other way to get the sun off the nose. */
  readonly mayTurnStrokes: boolean;
  /** Where the crowd looks of itself, to a stage or a shore; null when it does not matter. */
  readonly crowdFacingRadians: number | null;
  /** Everyone who looks, in the site frame: the sun's margin is that of the worst placed. Missing, the site alone. */
  readonly eyes?: readonly SitePointUp[];
  readonly facingsRadians: readonly number[];
  readonly readTimesMilliseconds: readonly number[];
}

export interface FacingCell {
  readonly readMilliseconds: number;
  readonly facingRadians: number;
  /** The sun is down for some of the writing or the reading. */
  readonly dark: boolean;
  /** Some of the text comes within {@link SUN_MARGIN_RADIANS} of the sun while it is to be read. */
  readonly sunTooNear: boolean;
  /** Least angle between the sun and any part of the text while it is to be read; null while the sun is down. */
  readonly sunMarginRadians: number | null;
  /** Share of the smoke flown with the sun in the pilot's eyes; with `mayTurnStrokes`, what turning cannot avoid. */
  readonly glareShare: number;
  /** Angle between the reading line and the wind, 0 to pi / 2: 0 writes straight into it. */
  readonly offWindRadians: number;
  /** How far the crowd must turn; null when it has no facing of its own. */
  readonly turnRadians: number | null;
  /** 0 to 100, higher is better; darkness and a near sun stand before it. */
  readonly score: number;
}

const SITE_ALONE: readonly SitePointUp[] = [{ eastMetres: 0, northMetres: 0, upMetres: 0 }];
/** Between samples of the reading neither sun nor text moves farther than this. */
const STEP_SECONDS = 120;
const STEP_METRES = 150;
const MOST_STEPS = 400;
/** Kept beyond the margin for what lies between samples. */
const SAMPLING_RADIANS = radiansFromDegrees(0.25);
/** A wind of this much makes the wind axis count in full. */
const FULL_WIND = metresPerSecondFromKnots(15);

/** What each consideration can take off 100. The weights are a judgement, shown beside the numbers they weigh. */
export const FACING_WEIGHTS = { sun: 30, glare: 30, wind: 20, crowd: 20 } as const;

/** Every read time with every facing, read times outermost. */
export function facingGrid(request: FacingRequest): FacingCell[] {
  if (!(request.writingSeconds >= 0 && request.readingSeconds >= 0)) {
    throw new RangeError(`times must be 0 or more: ${request.writingSeconds} s of writing, ${request.readingSeconds} s of reading`);
  }
  const { speedMetresPerSecond } = windFromVector(request.wind);
  const readingSteps = steps(0, request.readingSeconds, speedMetresPerSecond);
  // The text hangs alike at every hour, so where it is seen is worked out once for each facing.
  const outlines = request.facingsRadians.map((facingRadians) => {
    const wish = { facingRadians, viewElevationRadians: request.viewElevationRadians, layerAboveSiteMetres: request.layerAboveSiteMetres };
    return readingSteps.map((after) =>
      (request.eyes ?? SITE_ALONE).map((eye) => textOutline(wish, request.wind, after, request.textWidthMetres, request.letterHeightMetres, eye)),
    );
  });
  return request.readTimesMilliseconds.flatMap((readMilliseconds) => {
    const sunAfter = (seconds: number): SkyDirection => sunAt(request.site, readMilliseconds + seconds * 1_000);
    const reading = readingSteps.map(sunAfter);
    const writing = steps(-request.writingSeconds, 0, 0).map(sunAfter);
    return request.facingsRadians.map((facingRadians, index) => judge(readMilliseconds, facingRadians, outlines[index] ?? [], reading, writing, request));
  });
}

/**
 * The best cell: by day before dark, off the sun before near it, then by score, or farthest from the sun where all are
 * near it. So of one hour's facings none within 25 degrees of the sun is chosen while another avoids it. Null without
 * cells.
 */
export function bestFacing(cells: readonly FacingCell[]): FacingCell | null {
  return cells.reduce<FacingCell | null>((best, cell) => (best === null || isBetter(cell, best) ? cell : best), null);
}

function isBetter(one: FacingCell, other: FacingCell): boolean {
  if (one.dark !== other.dark) return other.dark;
  if (one.sunTooNear !== other.sunTooNear) return other.sunTooNear;
  if (one.sunTooNear) return (one.sunMarginRadians ?? 0) > (other.sunMarginRadians ?? 0);
  return one.score > other.score;
}

/** The two facings whose reading line lies along the wind; empty in a calm. */
export function windAxisFacings(wind: WindVector): number[] {
  const { fromRadians, speedMetresPerSecond } = windFromVector(wind);
  if (speedMetresPerSecond === 0) return [];
  return [positiveRadians(fromRadians + Math.PI / 2), positiveRadians(fromRadians - Math.PI / 2)];
}

/** The strokes of a plan by their directions in the letter frame. */
export function strokeDirections(plan: Plan): StrokeDirections[] {
  return trailsFromPlan(plan, plan.letterHeightMetres / 12).map((trail) =>
    trailPieces(trail).map(({ directionRadians, lengthMetres }) => ({
      directionRadians: airDirectionFromLetter(directionRadians, plan.frame),
      lengthMetres,
    })),
  );
}

function judge(
  readMilliseconds: number,
  facingRadians: number,
  outlines: readonly (readonly TextOutline[])[],
  reading: readonly SkyDirection[],
  writing: readonly SkyDirection[],
  request: FacingRequest,
): FacingCell {
  const dark = [...reading, ...writing].some((sun) => sun.elevationRadians < SUN_UP_RADIANS);
  const margins = reading.flatMap((sun, step) => {
    const outline = outlines[step];
    return sun.elevationRadians < SUN_UP_RADIANS || outline === undefined ? [] : outline.map((each) => outlineSeparation(sun, each));
  });
  const sunMarginRadians = margins.length === 0 ? null : Math.min(...margins);
  const glareShare = glareOf(facingRadians, writing, request);
  const offWindRadians = offWind(facingRadians, request.wind);
  const turnRadians = request.crowdFacingRadians === null ? null : Math.abs(signedRadians(facingRadians - request.crowdFacingRadians));
  const sunTooNear = sunMarginRadians !== null && sunMarginRadians < SUN_MARGIN_RADIANS + SAMPLING_RADIANS;
  const { speedMetresPerSecond } = windFromVector(request.wind);
  // A sun behind the crowd lights the letters from the front; past a right angle no more is gained.
  const sunShort = sunMarginRadians === null ? 0 : Math.max(0, 1 - (sunMarginRadians - SUN_MARGIN_RADIANS) / (Math.PI / 2 - SUN_MARGIN_RADIANS));
  const score =
    100 -
    FACING_WEIGHTS.sun * Math.min(1, sunShort) -
    FACING_WEIGHTS.glare * glareShare -
    FACING_WEIGHTS.wind * (offWindRadians / (Math.PI / 2)) * Math.min(1, speedMetresPerSecond / FULL_WIND) -
    FACING_WEIGHTS.crowd * ((turnRadians ?? 0) / Math.PI);
  return {
    readMilliseconds,
    facingRadians,
    dark,
    sunTooNear,
    sunMarginRadians,
    glareShare,
    offWindRadians,
    turnRadians,
    score,
  };
}

function glareOf(facingRadians: number, writing: readonly SkyDirection[], request: FacingRequest): number {
  const frame = { facingRadians, middle: { airEastMetres: 0, airNorthMetres: 0 } };
  let lengthMetres = 0;
  let glareMetres = 0;
  for (const stroke of request.strokes) {
    let [forth, back] = [0, 0];
    for (const piece of stroke) {
      const heading = bearingFromDirection(airDirectionFromLetter(piece.directionRadians, frame));
      lengthMetres += piece.lengthMetres;
      if (writing.some((sun) => isGlare(heading, sun))) forth += piece.lengthMetres;
      if (writing.some((sun) => isGlare(heading + Math.PI, sun))) back += piece.lengthMetres;
    }
    glareMetres += request.mayTurnStrokes ? Math.min(forth, back) : forth;
  }
  return lengthMetres > 0 ? glareMetres / lengthMetres : 0;
}

/** Angle between the reading line, square to the facing, and the wind: 0 along it, pi / 2 across it. */
function offWind(facingRadians: number, wind: WindVector): number {
  const { fromRadians, speedMetresPerSecond } = windFromVector(wind);
  if (speedMetresPerSecond === 0) return 0;
  return Math.asin(Math.min(1, Math.abs(Math.sin(facingRadians + Math.PI / 2 - fromRadians))));
}

/** From one second to another in equal steps, both ends included. */
function steps(fromSeconds: number, toSeconds: number, speedMetresPerSecond: number): number[] {
  const spanSeconds = toSeconds - fromSeconds;
  const wanted = Math.max(spanSeconds / STEP_SECONDS, (spanSeconds * speedMetresPerSecond) / STEP_METRES);
  const count = Math.min(MOST_STEPS, Math.max(1, Math.ceil(wanted)));
  return Array.from({ length: count + 1 }, (_, index) => fromSeconds + (spanSeconds * index) / count);
}
