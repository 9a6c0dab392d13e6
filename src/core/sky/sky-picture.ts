import type { SitePointUp } from '../earth/site-frame.ts';
import type { SkyDirection } from '../earth/sun.ts';
import type { ShearVector } from '../earth/wind-profile.ts';
import type { WindVector } from '../earth/wind-vector.ts';
import type { AirPoint } from '../paths/air-path.ts';
import { siteFromAir } from '../plan/place.ts';
import { type Camera, type ImagePoint, imageOf, pixelsPerTangent } from './camera.ts';
import { layerPoint, type SeenPoint, seenFrom } from './perspective.ts';
import { contrastFromDepth, contrastThroughAir, levelRangeMetres, plumeSpread, shearAcross, slantView } from './plume.ts';
import type { SmokeCase } from './smoke-range.ts';
import { type Trail, type TrailPiece, trailPieces } from './trail.ts';

/** Where a picture of the sky is drawn: canvas, SVG, a test. */
export interface SkySink {
  /**
   * A line of smoke to be drawn in one go, with flat ends and round joins, over what is there. Lines of one trail come
   * from wide and faint to narrow and dense; drawn over each other they make its soft profile.
   *
   * @param opacity 0 to 1 of the smoke's own colour
   */
  smoke(line: readonly ImagePoint[], widthPixels: number, opacity: number): void;
}

/** The moment, the eye and the air. */
export interface SkyMoment {
  /** Since the datum. */
  readonly atSeconds: number;
  /** In the site frame. */
  readonly eye: SitePointUp;
  readonly camera: Camera;
  readonly wind: WindVector;
  readonly shear: ShearVector | null;
  readonly layerAboveSiteMetres: number;
  readonly visibilityMetres: number | null;
  readonly smoke: SmokeCase;
}

/** Half widths of the bands that make up a normal profile, in spreads, and where in each its depth is taken. */
const BANDS: readonly { readonly halfWidth: number; readonly middle: number }[] = [
  { halfWidth: 2.5, middle: 2.05 },
  { halfWidth: 1.65, middle: 1.35 },
  { halfWidth: 1.05, middle: 0.8 },
  { halfWidth: 0.55, middle: 0.28 },
];

/** Bits of a trail are drawn in one go while width and depth stay within this share: no beads where they meet. */
const SAME_SHARE = 0.12;

interface SeenPiece {
  readonly from: ImagePoint;
  readonly to: ImagePoint;
  readonly spreadPixels: number;
  readonly opticalDepth: number;
  /** Share of the contrast that the air between lets through. */
  readonly clear: number;
}

/**
 * Draws the smoke of some trails as an eye sees it at a moment: true perspective, each bit as wide as its plume shows
 * along that line of sight and as dense as its smoke is deep. Smoke not yet laid is not drawn; the bit being laid is
 * drawn to where the aircraft is. What lies outside the picture is still sent, what lies behind the eye is not.
 */
export function drawSky(trails: readonly Trail[], moment: SkyMoment, sink: SkySink): void {
  for (const trail of trails) {
    let run: SeenPiece[] = [];
    for (const piece of trailPieces(trail)) {
      const laid = laidPart(piece, moment.atSeconds);
      if (laid === null) break;
      const seen = seePiece(trail, laid, moment);
      const first = run[0];
      const last = run.at(-1);
      const joins =
        seen !== null &&
        first !== undefined &&
        last?.to.xPixels === seen.from.xPixels &&
        last.to.yPixels === seen.from.yPixels &&
        Math.abs(Math.log(seen.spreadPixels / first.spreadPixels)) < SAME_SHARE &&
        Math.abs(Math.log(seen.opticalDepth / first.opticalDepth)) < SAME_SHARE;
      if (!joins) {
        drawRun(run, sink);
        run = [];
      }
      if (seen !== null) run.push(seen);
    }
    drawRun(run, sink);
  }
}

/** Direction and distance of a point of the smoke from the eye, at the moment. */
export function seenSmoke(point: AirPoint, heightStepMetres: number, moment: SkyMoment): SeenPoint {
  const place = siteFromAir(point, moment.wind, moment.atSeconds);
  return seenFrom(layerPoint(place, moment.layerAboveSiteMetres + heightStepMetres), moment.eye);
}

/** Where the horizon runs, level through the picture; null when the picture looks past it. */
export function horizonPixels(camera: Camera): number | null {
  const image = imageOf({ azimuthRadians: camera.azimuthRadians, elevationRadians: 0 }, camera);
  return image === null ? null : image.yPixels;
}

/** How large an upright thing on the ground shows: a person of 1.7 m, 60 m away, for scale. */
export function uprightPixels(heightMetres: number, distanceMetres: number, camera: Camera): number {
  return (pixelsPerTangent(camera) * heightMetres) / distanceMetres;
}

/**
 * A camera that holds all of some directions with a margin, and the horizon when asked; level side to side.
 * Its field is at most 120 degrees, and what does not fit is cut on all sides alike.
 */
export function cameraAround(directions: readonly SkyDirection[], widthPixels: number, heightPixels: number, withHorizon: boolean): Camera {
  const first = directions[0];
  if (first === undefined) throw new RangeError('a camera needs something to look at');
  const turns = directions.map((each) =>
    Math.atan2(Math.sin(each.azimuthRadians - first.azimuthRadians), Math.cos(each.azimuthRadians - first.azimuthRadians)),
  );
  const elevations = directions.map((each) => each.elevationRadians).concat(withHorizon ? [0] : []);
  const azimuthRadians = first.azimuthRadians + (Math.min(...turns) + Math.max(...turns)) / 2;
  const elevationRadians = (Math.min(...elevations) + Math.max(...elevations)) / 2;
  const unit: Camera = { azimuthRadians, elevationRadians, fieldRadians: Math.PI / 2, widthPixels: 2, heightPixels: 2 };
  // With this camera a pixel is a unit of tangent, so the needed half field can be read off the images.
  const shown = directions.concat(withHorizon ? [{ azimuthRadians, elevationRadians: 0 }] : []).map((each) => imageOf(each, unit));
  const margin = 1.15;
  const across = Math.max(...shown.map((image) => (image === null ? 10 : Math.abs(image.xPixels - 1))));
  const upward = Math.max(...shown.map((image) => (image === null ? 10 : Math.abs(image.yPixels - 1))));
  const tangent = Math.max(0.05, margin * Math.max(across, (upward * widthPixels) / heightPixels));
  const fieldRadians = Math.min((120 * Math.PI) / 180, 2 * Math.atan(tangent));
  return { azimuthRadians, elevationRadians, fieldRadians, widthPixels, heightPixels };
}

function laidPart(piece: TrailPiece, atSeconds: number): TrailPiece | null {
  if (piece.from.laidAtSeconds >= atSeconds) return null;
  if (piece.to.laidAtSeconds <= atSeconds) return piece;
  const share = (atSeconds - piece.from.laidAtSeconds) / (piece.to.laidAtSeconds - piece.from.laidAtSeconds);
  const mix = (one: number, other: number): number => one + (other - one) * share;
  const to = {
    airEastMetres: mix(piece.from.airEastMetres, piece.to.airEastMetres),
    airNorthMetres: mix(piece.from.airNorthMetres, piece.to.airNorthMetres),
    laidAtSeconds: atSeconds,
  };
  return { ...piece, to, lengthMetres: piece.lengthMetres * share, laidAtSeconds: (piece.from.laidAtSeconds + atSeconds) / 2 };
}

function seePiece(trail: Trail, piece: TrailPiece, moment: SkyMoment): SeenPiece | null {
  const from = imageOf(seenSmoke(piece.from, trail.heightStepMetres, moment), moment.camera);
  const to = imageOf(seenSmoke(piece.to, trail.heightStepMetres, moment), moment.camera);
  if (from === null || to === null) return null;
  const middle = {
    airEastMetres: (piece.from.airEastMetres + piece.to.airEastMetres) / 2,
    airNorthMetres: (piece.from.airNorthMetres + piece.to.airNorthMetres) / 2,
  };
  const seen = seenSmoke(middle, trail.heightStepMetres, moment);
  const shear = moment.shear === null ? moment.smoke.assumedShearPerSecond : shearAcross(moment.shear, piece.directionRadians);
  const spread = plumeSpread(Math.max(0, moment.atSeconds - piece.laidAtSeconds), shear, moment.smoke.air);
  const flat = Math.cos(seen.elevationRadians);
  const view = slantView(
    { kilogramsPerMetre: trail.kilogramsPerMetre, extinctionSquareMetresPerKilogram: moment.smoke.extinctionSquareMetresPerKilogram },
    spread,
    piece.directionRadians,
    { east: flat * Math.sin(seen.azimuthRadians), north: flat * Math.cos(seen.azimuthRadians), up: Math.sin(seen.elevationRadians) },
  );
  if (!(view.opticalDepth > 0)) return null;
  return {
    from,
    to,
    spreadPixels: (pixelsPerTangent(moment.camera) * view.spreadMetres) / seen.rangeMetres,
    opticalDepth: view.opticalDepth,
    clear: contrastThroughAir(1, levelRangeMetres(seen.rangeMetres, seen.rangeMetres * Math.sin(seen.elevationRadians)), moment.visibilityMetres),
  };
}

function drawRun(run: readonly SeenPiece[], sink: SkySink): void {
  const first = run[0];
  if (first === undefined) return;
  const line = [first.from, ...run.map((piece) => piece.to)];
  const spreadPixels = run.reduce((sum, piece) => sum + piece.spreadPixels, 0) / run.length;
  const opticalDepth = run.reduce((sum, piece) => sum + piece.opticalDepth, 0) / run.length;
  let covered = 0;
  for (const { halfWidth, middle } of BANDS) {
    const wanted = first.clear * contrastFromDepth(opticalDepth * Math.exp((-middle * middle) / 2));
    // What this band adds over the wider ones already drawn beneath it.
    const opacity = covered < 1 ? (wanted - covered) / (1 - covered) : 0;
    sink.smoke(line, 2 * halfWidth * spreadPixels, opacity);
    covered = wanted;
  }
}
