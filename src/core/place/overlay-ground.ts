import { type GeodeticPoint, type Site, type SitePoint, siteFromGeodetic } from '../earth/site-frame.ts';
import { signedDegrees } from '../units/angle.ts';
import type { FlatRing, Landmark, Overlay } from './overlay.ts';

/** A part of an overlay on a map of the site's surroundings. */
export interface GroundShape {
  readonly name: string;
  readonly noGo: boolean;
  /** Cut at the edge of what was asked for; an area's holes are rings like others (even-odd). */
  readonly rings: readonly (readonly SitePoint[])[];
}

/** What of an overlay lies within some distance of a site. */
export interface OverlayGround {
  readonly areas: readonly GroundShape[];
  readonly landmarks: readonly { readonly landmark: Landmark; readonly place: SitePoint }[];
}

const METRES_PER_DEGREE = 111_195;

/**
 * The areas and landmarks of an overlay within a square round a site, for drawing. Rings are cut to the square in
 * longitude and latitude, where the edges of GeoJSON are straight (RFC 7946, 3.1.1), and points nearer than
 * `leastMetres` to the one before are left out; a million points take about half a second.
 *
 * @param withinMetres half of the square's side, up to 500 km
 * @throws RangeError for a distance that is not above 0 or is above 500 km
 */
export function overlayOnGround(overlay: Overlay, site: Site, withinMetres: number, leastMetres: number): OverlayGround {
  if (!(withinMetres > 0 && withinMetres <= 500_000)) throw new RangeError(`withinMetres must be above 0 and at most 500,000, not ${withinMetres}`);
  const up = withinMetres / METRES_PER_DEGREE;
  const box: Box = { across: Math.min(60, up / Math.max(0.02, Math.cos((Math.min(89, Math.abs(site.latitudeDegrees) + up) * Math.PI) / 180))), up };
  const onGround = (x: number, y: number): SitePoint =>
    groundFrom({ latitudeDegrees: site.latitudeDegrees + y, longitudeDegrees: site.longitudeDegrees + x }, site);
  const areas = overlay.areas.flatMap(({ name, noGo, polygons }): GroundShape[] => {
    const rings = polygons.flatMap((polygon) =>
      polygon.flatMap((ring) =>
        // An unwrapped ring may lie a turn away from the site.
        [-360, 0, 360].flatMap((turn) => {
          const cut = cutRing(ring, site, turn, box, leastMetres / METRES_PER_DEGREE);
          return cut.length < 6 ? [] : [Array.from({ length: cut.length / 2 }, (_, index) => onGround(cut[2 * index] ?? 0, cut[2 * index + 1] ?? 0))];
        }),
      ),
    );
    return rings.length === 0 ? [] : [{ name, noGo, rings }];
  });
  const landmarks = overlay.landmarks.flatMap((landmark) => {
    const x = signedDegrees(landmark.longitudeDegrees - site.longitudeDegrees);
    const y = landmark.latitudeDegrees - site.latitudeDegrees;
    return Math.abs(x) > box.across || Math.abs(y) > box.up ? [] : [{ landmark, place: onGround(x, y) }];
  });
  return { areas, landmarks };
}

/** Half widths in degrees. */
interface Box {
  readonly across: number;
  readonly up: number;
}

function groundFrom(point: GeodeticPoint, site: Site): SitePoint {
  const { eastMetres, northMetres } = siteFromGeodetic(point, site.elevationMetres, site);
  return { eastMetres, northMetres };
}

/** A ring in degrees from the site, thinned, then cut on four sides (Sutherland and Hodgman 1974); flat. */
function cutRing(ring: FlatRing, site: GeodeticPoint, turnDegrees: number, box: Box, leastDegrees: number): number[] {
  let before = ring[0] ?? 0;
  let x = signedDegrees(before - site.longitudeDegrees) + turnDegrees;
  let [west, east, south, north] = [Infinity, -Infinity, Infinity, -Infinity];
  const cosine = Math.cos((site.latitudeDegrees * Math.PI) / 180);
  const kept: number[] = [];
  for (let index = 0; index < ring.length; index += 2) {
    const longitude = ring[index] ?? 0;
    const step = longitude - before;
    x += Math.abs(step) === 360 ? step : signedDegrees(step);
    before = longitude;
    const y = (ring[index + 1] ?? 0) - site.latitudeDegrees;
    west = Math.min(west, x);
    east = Math.max(east, x);
    south = Math.min(south, y);
    north = Math.max(north, y);
    const near = kept.length > 0 && Math.hypot((x - (kept.at(-2) ?? 0)) * cosine, y - (kept.at(-1) ?? 0)) < leastDegrees;
    if (!near) kept.push(x, y);
  }
  if (east < -box.across || west > box.across || north < -box.up || south > box.up) return [];
  let points = kept;
  for (const [axis, limit, sign] of [
    [0, box.across, 1],
    [0, -box.across, -1],
    [1, box.up, 1],
    [1, -box.up, -1],
  ] as const) {
    points = cutSide(points, axis, limit, sign);
  }
  return points;
}

/** Keeps what of a flat polygon lies on one side: `sign * coordinate <= sign * limit`. */
function cutSide(points: readonly number[], axis: 0 | 1, limit: number, sign: 1 | -1): number[] {
  const cut: number[] = [];
  const count = points.length / 2;
  for (let index = 0; index < count; index += 1) {
    const next = (index + 1) % count;
    const [ax, ay, bx, by] = [points[2 * index] ?? 0, points[2 * index + 1] ?? 0, points[2 * next] ?? 0, points[2 * next + 1] ?? 0];
    const a = sign * ((axis === 0 ? ax : ay) - limit);
    const b = sign * ((axis === 0 ? bx : by) - limit);
    if (a <= 0) cut.push(ax, ay);
    if (a < 0 !== b < 0 && a !== b && a !== 0 && b !== 0) {
      const share = a / (a - b);
      cut.push(ax + share * (bx - ax), ay + share * (by - ay));
    }
  }
  return cut;
}
