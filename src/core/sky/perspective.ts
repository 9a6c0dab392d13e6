import type { SitePoint, SitePointUp } from '../earth/site-frame.ts';
import type { SkyDirection } from '../earth/sun.ts';
import { positiveRadians } from '../units/angle.ts';

/** What an eye sees of a point. */
export interface SeenPoint extends SkyDirection {
  readonly rangeMetres: number;
}

/** A picture: where it looks and how much it holds. */
export interface Camera {
  readonly azimuthRadians: number;
  readonly elevationRadians: number;
  /** Across the whole picture, under pi. */
  readonly fieldRadians: number;
  readonly widthPixels: number;
  readonly heightPixels: number;
}

/** A point of the picture, right and DOWN from its upper left corner. */
export interface ImagePoint {
  readonly xPixels: number;
  readonly yPixels: number;
}

/** Mean radius of the earth (IUGG). */
const EARTH_RADIUS_METRES = 6_371_009;

/**
 * A point of a layer in the site frame: at a distance it hangs lower above the site's plane, by d^2 / 2R (20 m at 16 km).
 */
export function layerPoint(point: SitePoint, aboveSiteMetres: number): SitePointUp {
  const { eastMetres, northMetres } = point;
  const dropMetres = (eastMetres * eastMetres + northMetres * northMetres) / (2 * EARTH_RADIUS_METRES);
  return { eastMetres, northMetres, upMetres: aboveSiteMetres - dropMetres };
}

/** Direction and distance of a point from an eye, both in the site frame; straight overhead the azimuth is 0. */
export function seenFrom(point: SitePointUp, eye: SitePointUp): SeenPoint {
  const east = point.eastMetres - eye.eastMetres;
  const north = point.northMetres - eye.northMetres;
  const up = point.upMetres - eye.upMetres;
  return {
    azimuthRadians: positiveRadians(Math.atan2(east, north)),
    elevationRadians: Math.atan2(up, Math.hypot(east, north)),
    rangeMetres: Math.hypot(east, north, up),
  };
}

/**
 * Where a direction falls in the picture, by central projection (straight lines stay straight), or null when it lies
 * behind or so far aside that it has no place: more than 87 degrees from the picture's middle.
 */
export function imageOf(direction: SkyDirection, camera: Camera): ImagePoint | null {
  const turn = direction.azimuthRadians - camera.azimuthRadians;
  const flat = Math.cos(direction.elevationRadians);
  const right = flat * Math.sin(turn);
  const level = flat * Math.cos(turn);
  const up = Math.sin(direction.elevationRadians);
  const ahead = level * Math.cos(camera.elevationRadians) + up * Math.sin(camera.elevationRadians);
  if (ahead < 0.05) return null;
  const raised = up * Math.cos(camera.elevationRadians) - level * Math.sin(camera.elevationRadians);
  const scale = pixelsPerTangent(camera);
  return {
    xPixels: camera.widthPixels / 2 + (scale * right) / ahead,
    yPixels: camera.heightPixels / 2 - (scale * raised) / ahead,
  };
}

/** Pixels for each unit of tangent off the picture's middle; near the middle, pixels for each radian. */
export function pixelsPerTangent(camera: Camera): number {
  if (!(camera.fieldRadians > 0 && camera.fieldRadians < Math.PI)) {
    throw new RangeError(`fieldRadians must lie between 0 and pi, not ${camera.fieldRadians}`);
  }
  return camera.widthPixels / 2 / Math.tan(camera.fieldRadians / 2);
}

/**
 * The angle under which a letter's depth is seen when it hangs flat at a height, its middle at an elevation, its depth
 * along the sight: exact; near `H sin^2(e) / h`. 800 m at 3,000 m and 45 degrees: 7.662 degrees.
 *
 * @throws RangeError for an elevation outside (0, pi / 2] or a height not above 0
 */
export function shownDepthRadians(depthMetres: number, aboveEyeMetres: number, elevationRadians: number): number {
  checkView(aboveEyeMetres, elevationRadians);
  const distanceMetres = aboveEyeMetres / Math.tan(elevationRadians);
  const near = Math.atan2(distanceMetres - depthMetres / 2, aboveEyeMetres);
  const far = Math.atan2(distanceMetres + depthMetres / 2, aboveEyeMetres);
  return far - near;
}

/**
 * The angle under which a letter's width is seen, square to the sight: exact; near `W sin(e) / h`.
 *
 * @throws RangeError for an elevation outside (0, pi / 2] or a height not above 0
 *
 * @oracle
 */
export function shownWidthRadians(widthMetres: number, aboveEyeMetres: number, elevationRadians: number): number {
  checkView(aboveEyeMetres, elevationRadians);
  return 2 * Math.atan((widthMetres * Math.sin(elevationRadians)) / (2 * aboveEyeMetres));
}

/**
 * How much deeper letters must be made so that they show as high as they are wide at an elevation: `1 / sin(e)`.
 *
 * @oracle
 */
export function evenStretch(elevationRadians: number): number {
  checkView(1, elevationRadians);
  return 1 / Math.sin(elevationRadians);
}

/**
 * How far the text's reading line is turned from level for an eye that does not look along the facing: the angle of a
 * level line `asideRadians` off square to the sight, seen at an elevation, `atan(tan(aside) sin(e))`. Positive when
 * the line rises to the right, which it does for an eye that looks to the left of the facing.
 */
export function shownTurnRadians(sightAzimuthRadians: number, facingRadians: number, elevationRadians: number): number {
  const aside = facingRadians - sightAzimuthRadians;
  // atan2 keeps an eye behind the text apart: it sees the line turned by more than a quarter.
  return Math.atan2(Math.sin(aside) * Math.sin(elevationRadians), Math.cos(aside));
}

function checkView(aboveEyeMetres: number, elevationRadians: number): void {
  if (!(aboveEyeMetres > 0 && aboveEyeMetres < Infinity)) throw new RangeError(`aboveEyeMetres must be above 0, not ${aboveEyeMetres}`);
  if (!(elevationRadians > 0 && elevationRadians <= Math.PI / 2)) {
    throw new RangeError(`elevationRadians must lie above 0 and at most at pi / 2, not ${elevationRadians}`);
  }
}
