import type { SitePoint, SitePointUp } from '../earth/site-frame.ts';
import type { SkyDirection } from '../earth/sun.ts';
import { positiveRadians } from '../units/angle.ts';

/** What an eye sees of a point. */
export interface SeenPoint extends SkyDirection {
  readonly rangeMetres: number;
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

/** How a point of the layer is seen from the site itself. */
export function seenFromSite(point: SitePoint, aboveSiteMetres: number): SeenPoint {
  return seenFrom(layerPoint(point, aboveSiteMetres), { eastMetres: 0, northMetres: 0, upMetres: 0 });
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
