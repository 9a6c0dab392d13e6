import { degreesFromRadians, signedDegrees } from '../units/angle.ts';
import {
  type Axes,
  axesAt,
  checkFinite,
  ECCENTRICITY_SQUARED,
  EQUATORIAL_METRES,
  FLATTENING,
  type Geocentric,
  type GeodeticPoint,
  type GeodeticPointHeight,
  type Site,
  siteDistanceMetres,
  type SitePoint,
  type SitePointUp,
} from './site-frame.ts';

const POLAR_METRES = EQUATORIAL_METRES * (1 - FLATTENING);
const SECOND_ECCENTRICITY_SQUARED = ECCENTRICITY_SQUARED / (1 - ECCENTRICITY_SQUARED);

/** Beyond this a tangent plane answers no question of this trade. */
const REACH_METRES = 1_000_000;

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
 * Inverse of `siteFromGeodetic` at the same height.
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
