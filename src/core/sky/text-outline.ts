import type { SitePointUp } from '../earth/site-frame.ts';
import type { SkyDirection } from '../earth/sun.ts';
import type { WindVector } from '../earth/wind-vector.ts';
import { airFromLetter } from '../paths/letter-frame.ts';
import { placeTextMiddle, type PlaceWish, siteFromAir } from '../plan/place.ts';
import { layerPoint } from './perspective.ts';

/** A unit vector from the eye: east, north, up. */
type Sight = readonly [number, number, number];

/** One side of the text's rectangle as the eye sees it: part of a great circle. */
interface Side {
  readonly from: Sight;
  readonly to: Sight;
  /** Square to both, unit; the rectangle lies on its positive side. */
  readonly pole: Sight;
}

/** A text's rectangle as seen from the site, on the sphere of directions. */
export type TextOutline = readonly Side[];

const AT_THE_SITE: SitePointUp = { eastMetres: 0, northMetres: 0, upMetres: 0 };

/**
 * The rectangle of a text seen from the site, some seconds after it hung as wished. A plane's straight edges are great
 * circles to the eye, so four sides are exact; the earth's bend, 2 m at 5 km, is taken at the corners.
 *
 * @param afterSeconds since the read time, for the drift; may be negative
 * @param eye who looks, in the site frame
 */
export function textOutline(
  wish: PlaceWish,
  wind: WindVector,
  afterSeconds: number,
  textWidthMetres: number,
  letterHeightMetres: number,
  eye: SitePointUp = AT_THE_SITE,
): TextOutline {
  const frame = { facingRadians: wish.facingRadians, middle: placeTextMiddle(wish, wind, 0) };
  const corners = (
    [
      [-1, -1],
      [1, -1],
      [1, 1],
      [-1, 1],
    ] as const
  ).map(([right, top]): Sight => {
    const point = airFromLetter({ xMetres: (right * textWidthMetres) / 2, yMetres: (top * letterHeightMetres) / 2 }, frame);
    const { eastMetres, northMetres, upMetres } = layerPoint(siteFromAir(point, wind, afterSeconds), wish.layerAboveSiteMetres);
    return unit([eastMetres - eye.eastMetres, northMetres - eye.northMetres, upMetres - eye.upMetres]);
  });
  const inside = unit(corners.reduce<Sight>((sum, each) => [sum[0] + each[0], sum[1] + each[1], sum[2] + each[2]], [0, 0, 0]));
  return corners.flatMap((from, index): Side[] => {
    const to = corners[(index + 1) % corners.length];
    if (to === undefined) return [];
    const pole = unit(cross(from, to));
    return [{ from, to, pole: dot(pole, inside) < 0 ? [-pole[0], -pole[1], -pole[2]] : pole }];
  });
}

/** The angle between a direction and the nearest part of a text; 0 within its rectangle. Exact. */
export function outlineSeparation(direction: SkyDirection, outline: TextOutline): number {
  const flat = Math.cos(direction.elevationRadians);
  const sight: Sight = [flat * Math.sin(direction.azimuthRadians), flat * Math.cos(direction.azimuthRadians), Math.sin(direction.elevationRadians)];
  if (outline.every(({ pole }) => dot(pole, sight) >= 0)) return 0;
  return Math.min(...outline.map((side) => toSide(sight, side)));
}

function toSide(sight: Sight, { from, to, pole }: Side): number {
  // The foot of the perpendicular lies between the ends when the sight is past neither of them.
  const along = cross(pole, from);
  const forward = dot(along, to) >= 0 ? 1 : -1;
  const past = forward * dot(along, sight) >= 0 && forward * dot(cross(to, pole), sight) >= 0;
  return past ? Math.abs(Math.asin(Math.max(-1, Math.min(1, dot(pole, sight))))) : Math.min(angle(sight, from), angle(sight, to));
}

function angle(one: Sight, other: Sight): number {
  return Math.atan2(Math.hypot(...cross(one, other)), dot(one, other));
}

function dot(one: Sight, other: Sight): number {
  return one[0] * other[0] + one[1] * other[1] + one[2] * other[2];
}

function cross(one: Sight, other: Sight): Sight {
  return [one[1] * other[2] - one[2] * other[1], one[2] * other[0] - one[0] * other[2], one[0] * other[1] - one[1] * other[0]];
}

function unit(vector: Sight): Sight {
  const length = Math.hypot(...vector);
  return length === 0 ? [0, 0, 1] : [vector[0] / length, vector[1] / length, vector[2] / length];
}
