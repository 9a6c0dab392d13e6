import type { SitePoint } from '../earth/site-frame.ts';

/** A circle on the ground. */
export interface GroundCircle {
  readonly centre: SitePoint;
  readonly radiusMetres: number;
}

/**
 * The smallest convex polygon round some points, anticlockwise, no corner twice (A. M. Andrew 1979, monotone chain).
 * One point gives itself, points on a line its two ends.
 */
export function convexHull(points: readonly SitePoint[]): SitePoint[] {
  const sorted = [...points].sort((one, other) => one.eastMetres - other.eastMetres || one.northMetres - other.northMetres);
  const distinct = sorted.filter((point, index) => {
    const before = sorted[index - 1];
    return before === undefined || point.eastMetres !== before.eastMetres || point.northMetres !== before.northMetres;
  });
  if (distinct.length < 3) return distinct;
  const lower = chain(distinct);
  const upper = chain(distinct.toReversed());
  return [...lower.slice(0, -1), ...upper.slice(0, -1)];
}

/**
 * The smallest circle round some points (E. Welzl 1991), found by growing it through the points that stick out.
 *
 * @throws RangeError without points
 */
export function smallestCircle(points: readonly SitePoint[]): GroundCircle {
  const hull = convexHull(points);
  const first = hull[0];
  if (first === undefined) throw new RangeError('a circle needs a point');
  let circle: GroundCircle = { centre: first, radiusMetres: 0 };
  for (const [one, a] of hull.entries()) {
    if (holds(circle, a)) continue;
    circle = { centre: a, radiusMetres: 0 };
    for (const [other, b] of hull.slice(0, one).entries()) {
      if (holds(circle, b)) continue;
      circle = through(a, b);
      for (const c of hull.slice(0, other)) {
        if (!holds(circle, c)) circle = circumcircle(a, b, c) ?? circle;
      }
    }
  }
  return circle;
}

/** The polygon moved outwards on all sides by at least a margin: hull of its corners' octagons. */
export function widenedHull(points: readonly SitePoint[], marginMetres: number): SitePoint[] {
  // An octagon round a corner holds the circle of the margin when its own radius is greater by 1 / cos(pi / 8).
  const radiusMetres = marginMetres / Math.cos(Math.PI / 8);
  return convexHull(
    points.flatMap(({ eastMetres, northMetres }) =>
      Array.from({ length: 8 }, (_, index) => ({
        eastMetres: eastMetres + radiusMetres * Math.cos((index * Math.PI) / 4),
        northMetres: northMetres + radiusMetres * Math.sin((index * Math.PI) / 4),
      })),
    ),
  );
}

/**
 * A convex polygon of at most `corners` corners that holds all of another: the side whose neighbours, drawn on until
 * they meet, add least area is left out, again and again. Never smaller than what it stands for, so that an area told
 * by fewer corners leaves nothing outside.
 *
 * @param hull convex, anticlockwise, as {@link convexHull} gives it
 * @param corners 4 or more; fewer may not be possible
 */
export function coveringPolygon(hull: readonly SitePoint[], corners: number): SitePoint[] {
  if (!(corners >= 4)) throw new RangeError(`corners must be 4 or more, not ${corners}`);
  let kept = [...hull];
  while (kept.length > corners) {
    let best: { readonly index: number; readonly tip: SitePoint; readonly added: number } | null = null;
    for (const [index, b] of kept.entries()) {
      const [a, c, d] = [kept.at(index - 1), kept[(index + 1) % kept.length], kept[(index + 2) % kept.length]];
      const tip = a === undefined || c === undefined || d === undefined ? null : meeting(a, b, c, d);
      if (tip === null || c === undefined) continue;
      const added = Math.abs(leftTurn(b, tip, c)) / 2;
      if (best === null || added < best.added) best = { index, tip, added };
    }
    if (best === null) return kept;
    const { index, tip } = best;
    const after = (index + 1) % kept.length;
    kept = kept.flatMap((point, at) => (at === index ? [tip] : at === after ? [] : [point]));
  }
  return kept;
}

/** Where a side drawn on past b meets the side through c and d drawn back past c; null when they never do. */
function meeting(a: SitePoint, b: SitePoint, c: SitePoint, d: SitePoint): SitePoint | null {
  const [ux, uy] = [b.eastMetres - a.eastMetres, b.northMetres - a.northMetres];
  const [vx, vy] = [c.eastMetres - d.eastMetres, c.northMetres - d.northMetres];
  const cross = ux * vy - uy * vx;
  // Sides that turn by half a circle or more between them part instead.
  if (Math.abs(cross) < 1e-9 * Math.hypot(ux, uy) * Math.hypot(vx, vy)) return null;
  const share = ((d.eastMetres - a.eastMetres) * vy - (d.northMetres - a.northMetres) * vx) / cross;
  return share < 1 ? null : { eastMetres: a.eastMetres + share * ux, northMetres: a.northMetres + share * uy };
}

function chain(points: readonly SitePoint[]): SitePoint[] {
  const kept: SitePoint[] = [];
  for (const point of points) {
    for (;;) {
      const last = kept.at(-1);
      const before = kept.at(-2);
      if (last === undefined || before === undefined || leftTurn(before, last, point) > 0) break;
      kept.pop();
    }
    kept.push(point);
  }
  return kept;
}

function leftTurn(a: SitePoint, b: SitePoint, c: SitePoint): number {
  return (b.eastMetres - a.eastMetres) * (c.northMetres - a.northMetres) - (b.northMetres - a.northMetres) * (c.eastMetres - a.eastMetres);
}

function holds({ centre, radiusMetres }: GroundCircle, point: SitePoint): boolean {
  const distance = Math.hypot(point.eastMetres - centre.eastMetres, point.northMetres - centre.northMetres);
  return distance <= radiusMetres * (1 + 1e-9) + 1e-9;
}

function through(a: SitePoint, b: SitePoint): GroundCircle {
  const centre = { eastMetres: (a.eastMetres + b.eastMetres) / 2, northMetres: (a.northMetres + b.northMetres) / 2 };
  return { centre, radiusMetres: Math.hypot(a.eastMetres - b.eastMetres, a.northMetres - b.northMetres) / 2 };
}

function circumcircle(a: SitePoint, b: SitePoint, c: SitePoint): GroundCircle | null {
  const bx = b.eastMetres - a.eastMetres;
  const by = b.northMetres - a.northMetres;
  const cx = c.eastMetres - a.eastMetres;
  const cy = c.northMetres - a.northMetres;
  const cross = 2 * (bx * cy - by * cx);
  if (cross === 0) return null;
  const x = (cy * (bx * bx + by * by) - by * (cx * cx + cy * cy)) / cross;
  const y = (bx * (cx * cx + cy * cy) - cx * (bx * bx + by * by)) / cross;
  return { centre: { eastMetres: a.eastMetres + x, northMetres: a.northMetres + y }, radiusMetres: Math.hypot(x, y) };
}
