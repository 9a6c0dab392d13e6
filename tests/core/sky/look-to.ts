import { type GeodeticPoint, type Site, siteFromGeodetic } from '../../../src/core/earth/site-frame.ts';
import { type SeenPoint, seenFrom } from '../../../src/core/sky/perspective.ts';

/**
 * Where to look from a place on the ground to see a point in the air: azimuth clockwise from true north, elevation
 * above the place's own horizontal, slant range. Exact in WGS 84 but for refraction, which lifts what hangs 5 degrees
 * up or higher by less than 0.2 degrees. Heights are metres above the ellipsoid, or above mean sea level both.
 *
 * Worked: from 39.742476 N 105.1786 W 1,830.14 m, the point 39.692476 N 105.0986 W at 3,048 m stands at 128.958
 * degrees, 7.815 degrees up, 8,911.5 m away (from east, north, up of GeographicLib CartConvert 2.1.2).
 *
 * @throws RangeError for a latitude outside -90 to 90 or a value that is not finite
 */
export function lookTo(point: GeodeticPoint, heightMetres: number, from: Site): SeenPoint {
  return seenFrom(siteFromGeodetic(point, heightMetres, from), { eastMetres: 0, northMetres: 0, upMetres: 0 });
}
