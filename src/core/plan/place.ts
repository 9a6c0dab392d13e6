import type { SitePoint } from '../earth/site-frame.ts';
import type { WindVector } from '../earth/wind-vector.ts';
import type { AirPoint } from '../paths/air-path.ts';

/** How the text should hang in the sky. */
export interface PlaceWish {
  /** Azimuth the crowd looks, clockwise from true north. */
  readonly facingRadians: number;
  /** How high above the crowd's horizon the text's middle hangs at the read time; above 0, at most pi / 2. */
  readonly viewElevationRadians: number;
  /** Of the layer above the crowd. */
  readonly layerAboveSiteMetres: number;
}

/** How far the air has moved since the datum: the drift D, for a steady wind. */
export function driftMetres(wind: WindVector, sinceDatumSeconds: number): SitePoint {
  return { eastMetres: wind.eastMetresPerSecond * sinceDatumSeconds, northMetres: wind.northMetresPerSecond * sinceDatumSeconds };
}

/**
 * Where the text's middle stands over the ground when it is read: `facing * h / tan(e)` from the crowd. A layer
 * 3,000 m up seen at 45 degrees to the north: 0 east, 3,000 north.
 *
 * @throws RangeError for an elevation outside (0, pi / 2] or a layer that is not above the site
 */
export function readPlace({ facingRadians, viewElevationRadians, layerAboveSiteMetres }: PlaceWish): SitePoint {
  if (!(viewElevationRadians > 0 && viewElevationRadians <= Math.PI / 2)) {
    throw new RangeError(`viewElevationRadians must lie above 0 and at most at pi / 2: ${viewElevationRadians}`);
  }
  if (!(layerAboveSiteMetres > 0 && Number.isFinite(layerAboveSiteMetres))) {
    throw new RangeError(`layerAboveSiteMetres must be positive and finite: ${layerAboveSiteMetres}`);
  }
  const distanceMetres = layerAboveSiteMetres / Math.tan(viewElevationRadians);
  return { eastMetres: distanceMetres * Math.sin(facingRadians), northMetres: distanceMetres * Math.cos(facingRadians) };
}

/**
 * Where to write the text so that it hangs as wished when it is read:
 * `place = site + facing * h / tan(e) - D(read time)`, in a steady wind. The answer is the text's middle in the
 * air-mass frame, which at the datum is also its middle over the ground.
 *
 * In a wind of 10 m/s towards the east, read 600 s after the first smoke, that is 6,000 m further west.
 *
 * @param readSeconds from the datum, the lead's first smoke, to the read time
 * @throws as {@link readPlace}
 */
export function placeTextMiddle(wish: PlaceWish, wind: WindVector, readSeconds: number): AirPoint {
  const atReadTime = readPlace(wish);
  const drift = driftMetres(wind, readSeconds);
  return { airEastMetres: atReadTime.eastMetres - drift.eastMetres, airNorthMetres: atReadTime.northMetres - drift.northMetres };
}

/** Site-frame point from an air-mass point at a time since the datum, in a steady wind. Inverse: {@link airFromSite}. */
export function siteFromAir(point: AirPoint, wind: WindVector, sinceDatumSeconds: number): SitePoint {
  const drift = driftMetres(wind, sinceDatumSeconds);
  return { eastMetres: point.airEastMetres + drift.eastMetres, northMetres: point.airNorthMetres + drift.northMetres };
}

/** Air-mass point from a site-frame point; the inverse of {@link siteFromAir}. */
export function airFromSite(point: SitePoint, wind: WindVector, sinceDatumSeconds: number): AirPoint {
  const drift = driftMetres(wind, sinceDatumSeconds);
  return { airEastMetres: point.eastMetres - drift.eastMetres, airNorthMetres: point.northMetres - drift.northMetres };
}
