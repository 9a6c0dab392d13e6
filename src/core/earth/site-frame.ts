import { degreesFromRadians, radiansFromDegrees, signedDegrees } from '../units/angle.ts';

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

/** WGS 84 (NIMA TR8350.2, 2000, table 3.1): equatorial radius and flattening. */
const EQUATORIAL_METRES = 6_378_137;
const FLATTENING = 1 / 298.257_223_563;
const ECCENTRICITY_SQUARED = FLATTENING * (2 - FLATTENING);
const POLAR_METRES = EQUATORIAL_METRES * (1 - FLATTENING);
const SECOND_ECCENTRICITY_SQUARED = ECCENTRICITY_SQUARED / (1 - ECCENTRICITY_SQUARED);

/** Beyond this a tangent plane answers no question of this trade. */
const REACH_METRES = 1_000_000;

interface Geocentric {
  readonly xMetres: number;
  readonly yMetres: number;
  readonly zMetres: number;
}

/** The site's rotation from earth-centred to east, north, up, with its own earth-centred place. */
interface Axes {
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
 * Inverse: {@link geodeticFromEastNorthUp}, and {@link geodeticFromSite} for points of one layer.
 *
 * @throws RangeError for a latitude outside -90 to 90 or a value that is not finite
 */
export function siteFromGeodetic(point: GeodeticPoint, heightMetres: number, site: Site): SitePointUp {
  const axes = axesAt(site);
  const place = geocentricFrom(point, heightMetres);
  const x = place.xMetres - axes.origin.xMetres;
  const y = place.yMetres - axes.origin.yMetres;
  const z = place.zMetres - axes.origin.zMetres;
  const outward = axes.cosineLongitude * x + axes.sineLongitude * y;
  return {
    eastMetres: axes.cosineLongitude * y - axes.sineLongitude * x,
    northMetres: axes.cosineLatitude * z - axes.sineLatitude * outward,
    upMetres: axes.cosineLatitude * outward + axes.sineLatitude * z,
  };
}

/**
 * Geodetic point and height from a site-frame point with its height above the plane.
 * Error under 1e-6 m within 1,000 km and 50 km of height (Bowring 1985, Survey Review 28, eq. 3, iterated).
 *
 * @throws RangeError beyond 1,000 km from the site or for a value that is not finite
 *
 * @oracle
 */
export function geodeticFromEastNorthUp(point: SitePointUp, site: Site): GeodeticPointHeight {
  checkReach(point);
  checkFinite('upMetres', point.upMetres);
  return geodeticOf(geocentricOf(point, axesAt(site)));
}

/**
 * Geodetic point from a site-frame point of the layer at `heightMetres` above the ellipsoid: the point straight
 * above or below which the tangent plane's (east, north) is reached at that height. Error under 1e-6 m.
 * Inverse of {@link siteFromGeodetic} at the same height.
 *
 * @throws RangeError beyond 1,000 km from the site or for a value that is not finite
 */
export function geodeticFromSite(point: SitePoint, heightMetres: number, site: Site): GeodeticPoint {
  checkReach(point);
  checkFinite('heightMetres', heightMetres);
  const axes = axesAt(site);
  let upMetres = heightMetres - site.elevationMetres;
  let found = geodeticOf(geocentricOf({ ...point, upMetres }, axes));
  // Height grows with up by the cosine of the earth's bend, so each step gains several digits within the reach.
  for (let step = 0; step < 12 && Math.abs(heightMetres - found.heightMetres) > 1e-9; step += 1) {
    upMetres += heightMetres - found.heightMetres;
    found = geodeticOf(geocentricOf({ ...point, upMetres }, axes));
  }
  return { latitudeDegrees: found.latitudeDegrees, longitudeDegrees: found.longitudeDegrees };
}

/** The plane distance from the site, metres. */
export function siteDistanceMetres(point: SitePoint): number {
  return Math.hypot(point.eastMetres, point.northMetres);
}

function axesAt(site: Site): Axes {
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

function geocentricOf(point: SitePointUp, axes: Axes): Geocentric {
  const outward = axes.cosineLatitude * point.upMetres - axes.sineLatitude * point.northMetres;
  return {
    xMetres: axes.origin.xMetres + axes.cosineLongitude * outward - axes.sineLongitude * point.eastMetres,
    yMetres: axes.origin.yMetres + axes.sineLongitude * outward + axes.cosineLongitude * point.eastMetres,
    zMetres: axes.origin.zMetres + axes.cosineLatitude * point.northMetres + axes.sineLatitude * point.upMetres,
  };
}

function geodeticOf(place: Geocentric): GeodeticPointHeight {
  const axisMetres = Math.hypot(place.xMetres, place.yMetres);
  // The reduced latitude of a point on the ellipsoid starts Bowring's step; two steps reach rounding below 50 km.
  let reducedRadians = Math.atan2(place.zMetres * EQUATORIAL_METRES, axisMetres * POLAR_METRES);
  let latitudeRadians = 0;
  for (let step = 0; step < 3; step += 1) {
    const sine = Math.sin(reducedRadians);
    const cosine = Math.cos(reducedRadians);
    latitudeRadians = Math.atan2(
      place.zMetres + SECOND_ECCENTRICITY_SQUARED * POLAR_METRES * sine * sine * sine,
      axisMetres - ECCENTRICITY_SQUARED * EQUATORIAL_METRES * cosine * cosine * cosine,
    );
    reducedRadians = Math.atan2((1 - FLATTENING) * Math.sin(latitudeRadians), Math.cos(latitudeRadians));
  }
  const sine = Math.sin(latitudeRadians);
  const cosine = Math.cos(latitudeRadians);
  const root = Math.sqrt(1 - ECCENTRICITY_SQUARED * sine * sine);
  return {
    latitudeDegrees: degreesFromRadians(latitudeRadians),
    longitudeDegrees: signedDegrees(degreesFromRadians(Math.atan2(place.yMetres, place.xMetres))),
    // Bowring's form of the height has no division that fails at the poles or the equator.
    heightMetres: axisMetres * cosine + place.zMetres * sine - EQUATORIAL_METRES * root,
  };
}

function checkReach(point: SitePoint): void {
  checkFinite('eastMetres', point.eastMetres);
  checkFinite('northMetres', point.northMetres);
  const distanceMetres = siteDistanceMetres(point);
  if (distanceMetres > REACH_METRES) {
    throw new RangeError(`a point ${distanceMetres} m from the site lies beyond the site frame's ${REACH_METRES} m`);
  }
}

function checkFinite(name: string, value: number): void {
  if (!Number.isFinite(value)) throw new RangeError(`${name} must be finite, not ${value}`);
}
