import type { SitePoint } from '../../earth/site-frame.ts';
import type { WindVector } from '../../earth/wind-vector.ts';
import { siteFromAir } from '../../plan/place.ts';
import type { AirPoint } from '../../paths/air-path.ts';

/** Where a text may hang: over the ground, in the site frame. */
export interface HangingLimits {
  /** The area told to the controller, convex, anticlockwise; absent where none was told. */
  readonly inside?: readonly SitePoint[];
  /** Rings that nothing is flown in. */
  readonly outside?: readonly (readonly SitePoint[])[];
  /** Points of all strokes with the time they are flown, as planned, and how far from them a ship may come. */
  readonly flown: readonly (AirPoint & { readonly atSeconds: number })[];
  readonly marginMetres: number;
  /** From the briefed place, by the fuel; absent where that is not known. */
  readonly farthestMetres?: number;
}

/** So much of the margin is kept to the told area's edge: at the desk the wind of the writing carried a word hung on the edge 200 m out. */
const INSIDE_SHARE = 0.7;

/**
 * Whether all strokes stay where they may, the text moved by so much from its briefed place and carried by a wind: inside
 * the told area, a margin away from every ring that is not to be flown in, and no farther than the fuel takes the ship.
 */
export function staysWithin(limits: HangingLimits, wind: WindVector, movedEastMetres: number, movedNorthMetres: number): boolean {
  if (Math.hypot(movedEastMetres, movedNorthMetres) > (limits.farthestMetres ?? Infinity)) return false;
  const points = limits.flown.map((point) => {
    const moved = { airEastMetres: point.airEastMetres + movedEastMetres, airNorthMetres: point.airNorthMetres + movedNorthMetres };
    return siteFromAir(moved, wind, point.atSeconds);
  });
  const { inside, outside = [] } = limits;
  const spareMetres = INSIDE_SHARE * limits.marginMetres;
  if (inside !== undefined && inside.length > 2 && !points.every((point) => isInside(inside, point) && distanceToRing(inside, point) >= spareMetres))
    return false;
  return outside.every((ring) => points.every((point) => !isInside(ring, point) && distanceToRing(ring, point) > limits.marginMetres));
}

/** Even and odd crossings of a ray towards the east. */
function isInside(ring: readonly SitePoint[], { eastMetres, northMetres }: SitePoint): boolean {
  let inside = false;
  ring.forEach((from, index) => {
    const to = ring[(index + 1) % ring.length] ?? from;
    if (from.northMetres > northMetres === to.northMetres > northMetres) return;
    const at = from.eastMetres + ((northMetres - from.northMetres) / (to.northMetres - from.northMetres)) * (to.eastMetres - from.eastMetres);
    if (at > eastMetres) inside = !inside;
  });
  return inside;
}

function distanceToRing(ring: readonly SitePoint[], point: SitePoint): number {
  let least = Infinity;
  ring.forEach((from, index) => {
    const to = ring[(index + 1) % ring.length] ?? from;
    const east = to.eastMetres - from.eastMetres;
    const north = to.northMetres - from.northMetres;
    const square = east * east + north * north;
    const along = square === 0 ? 0 : ((point.eastMetres - from.eastMetres) * east + (point.northMetres - from.northMetres) * north) / square;
    const share = Math.min(1, Math.max(0, along));
    least = Math.min(least, Math.hypot(point.eastMetres - from.eastMetres - share * east, point.northMetres - from.northMetres - share * north));
  });
  return least;
}
