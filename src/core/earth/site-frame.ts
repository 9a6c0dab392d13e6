import { radiansFromDegrees } from '../units/angle.ts';

/** A point of the WGS 84 ellipsoid; its height travels beside it. */
export interface GeodeticPoint {
  /** Geodetic latitude, -90 to 90, north positive. */
  readonly latitudeDegrees: number;
  /** East positive; any finite value is taken, results lie in (-180, 180]. */
  readonly longitudeDegrees: number;
}

/** Where the crowd stands: the origin of the site frame. */
export interface Site extends GeodeticPoint {
  readonly elevationMetres: number;
}

/** East and north of the site in its tangent plane; which height it stands at is said beside it. */
export interface SitePoint {
  readonly eastMetres: number;
  readonly northMetres: number;
}

/** A point of the site frame with its height above the tangent plane through the site. */
export interface SitePointUp extends SitePoint {
  /** Above the plane, not above the ground: at a distance d it is less than the difference of heights by d^2 / 2R. */
  readonly upMetres: number;
}

/** A point with its height above the ellipsoid. */
export interface GeodeticPointHeight extends GeodeticPoint {
  readonly heightMetres: number;
}

/** WGS 84 (NIMA TR8350.2, 2000, table 3.1): equatorial radius, metres. */
export const EQUATORIAL_METRES = 6_378_137;
/** The same source. */
export const FLATTENING = 1 / 298.257_223_563;
/** First eccentricity squared, from the flattening. */
export const ECCENTRICITY_SQUARED = FLATTENING * (2 - FLATTENING);

/** Earth-centred, metres: towards latitude 0 longitude 0, towards longitude 90 east, towards the north pole. */
export interface Geocentric {
  readonly xMetres: number;
  readonly yMetres: number;
  readonly zMetres: number;
}

/** The site's rotation from earth-centred to east, north, up, with its own earth-centred place. */
export interface Axes {
  readonly origin: Geocentric;
  readonly sineLatitude: number;
  readonly cosineLatitude: number;
  readonly sineLongitude: number;
  readonly cosineLongitude: number;
}

/**
 * Site-frame point from a geodetic point at a height, exact (earth-centred coordinates, rotated).
 *
 * Heights are metres above the ellipsoid. Heights above mean sea level serve as well when the site's elevation is
 * one too: an undulation of 100 m, left out on both sides, changes east and north by 1.6 mm per 100 m of distance.
 *
 * Worked: from 39.742476 N 105.1786 W 1,830.14 m, the point 39.692476 N 105.0986 W at 3,048 m lies 6,865.328 m
 * east, 5,551.055 m south and 1,211.751 m up (GeographicLib CartConvert 2.1.2, PROJ 9.1.1).
 *
 * Inverse: `geodeticFromEastNorthUp`, and `geodeticFromSite` for points of one layer.
 *
 * @throws RangeError for a latitude outside -90 to 90 or a value that is not finite
 */
export function siteFromGeodetic(point: GeodeticPoint, heightMetres: number, site: Site): SitePointUp {
  return pointFromAxes(axesAt(site), point, heightMetres);
}

/** {@link siteFromGeodetic} for many points of one site, whose axes are worked out once. */
export function pointFromAxes(
  { origin, sineLatitude, cosineLatitude, sineLongitude, cosineLongitude }: Axes,
  point: GeodeticPoint,
  heightMetres: number,
): SitePointUp {
  const place = geocentricFrom(point, heightMetres);
  const x = place.xMetres - origin.xMetres;
  const y = place.yMetres - origin.yMetres;
  const z = place.zMetres - origin.zMetres;
  const outward = cosineLongitude * x + sineLongitude * y;
  return {
    eastMetres: cosineLongitude * y - sineLongitude * x,
    northMetres: cosineLatitude * z - sineLatitude * outward,
    upMetres: cosineLatitude * outward + sineLatitude * z,
  };
}

/** The plane distance from the site, metres. */
export function siteDistanceMetres(point: SitePoint): number {
  return Math.hypot(point.eastMetres, point.northMetres);
}

/** The site's axes. */
export function axesAt(site: Site): Axes {
  const latitudeRadians = radiansFromDegrees(site.latitudeDegrees);
  const longitudeRadians = radiansFromDegrees(site.longitudeDegrees);
  return {
    origin: geocentricFrom(site, site.elevationMetres),
    sineLatitude: Math.sin(latitudeRadians),
    cosineLatitude: Math.cos(latitudeRadians),
    sineLongitude: Math.sin(longitudeRadians),
    cosineLongitude: Math.cos(longitudeRadians),
  };
}

function geocentricFrom(point: GeodeticPoint, heightMetres: number): Geocentric {
  if (!(Math.abs(point.latitudeDegrees) <= 90)) {
    throw new RangeError(`latitudeDegrees must lie within -90 and 90, not ${point.latitudeDegrees}`);
  }
  checkFinite('longitudeDegrees', point.longitudeDegrees);
  checkFinite('heightMetres', heightMetres);
  const latitudeRadians = radiansFromDegrees(point.latitudeDegrees);
  const longitudeRadians = radiansFromDegrees(point.longitudeDegrees);
  const sine = Math.sin(latitudeRadians);
  const normalMetres = EQUATORIAL_METRES / Math.sqrt(1 - ECCENTRICITY_SQUARED * sine * sine);
  const axisMetres = (normalMetres + heightMetres) * Math.cos(latitudeRadians);
  return {
    xMetres: axisMetres * Math.cos(longitudeRadians),
    yMetres: axisMetres * Math.sin(longitudeRadians),
    zMetres: (normalMetres * (1 - ECCENTRICITY_SQUARED) + heightMetres) * sine,
  };
}

/** @throws RangeError with the name for a value that is not finite */
export function checkFinite(name: string, value: number): void {
  if (!Number.isFinite(value)) throw new RangeError(`${name} must be finite, not ${value}`);
}
