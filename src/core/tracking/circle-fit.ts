/** A point of the plane in which the circle is sought, metres per second for velocities. */
export interface CirclePoint {
  readonly x: number;
  readonly y: number;
}

export interface Circle {
  readonly centreX: number;
  readonly centreY: number;
  readonly radius: number;
}

interface Moments {
  readonly meanX: number;
  readonly meanY: number;
  readonly xx: number;
  readonly xy: number;
  readonly yy: number;
  readonly xz: number;
  readonly yz: number;
  readonly zz: number;
}

/** Below this share of the spread's square the points lie on a line, or on one another. */
const FLAT = 1e-12;

/**
 * Circle of the least sum of squared powers (x^2 + y^2 + ...), solved linearly (I. Kasa 1976, IEEE Trans. Instrum.
 * Meas. 25:8-14). Too small a radius on short arcs.
 *
 * @oracle
 * @returns null for fewer than three points, or points on a line
 */
export function kasaCircle(points: readonly CirclePoint[]): Circle | null {
  const moments = momentsOf(points);
  if (moments === null) return null;
  return circleAt(moments, 0, moments.xx + moments.yy);
}

/**
 * Circle under G. Taubin's constraint (1991, IEEE PAMI 13:1115-1138), by Newton's method (Chernov 2010).
 *
 * @returns null for fewer than three points, or points on a line
 */
export function taubinCircle(points: readonly CirclePoint[]): Circle | null {
  const moments = momentsOf(points);
  if (moments === null) return null;
  const { xx, yy, xy, xz, yz, zz } = moments;
  const z = xx + yy;
  const determinant = xx * yy - xy * xy;
  const spread = zz - z * z;
  const c3 = 4 * z;
  const c2 = -3 * z * z - zz;
  const c1 = spread * z + 4 * determinant * z - xz * xz - yz * yz;
  const c0 = xz * (xz * yy - yz * xy) + yz * (yz * xx - xz * xy) - spread * determinant;
  const root = newtonRoot(
    (at) => c0 + at * (c1 + at * (c2 + at * c3)),
    (at) => c1 + at * (2 * c2 + at * 3 * c3),
  );
  return circleAt(moments, root, z);
}

function momentsOf(points: readonly CirclePoint[]): Moments | null {
  if (!points.every(({ x, y }) => Number.isFinite(x) && Number.isFinite(y))) throw new RangeError('circle points must be finite');
  const count = points.length;
  if (count < 3) return null;
  const meanX = points.reduce((sum, point) => sum + point.x, 0) / count;
  const meanY = points.reduce((sum, point) => sum + point.y, 0) / count;
  const sums = { xx: 0, xy: 0, yy: 0, xz: 0, yz: 0, zz: 0 };
  for (const point of points) {
    const x = point.x - meanX;
    const y = point.y - meanY;
    const z = x * x + y * y;
    sums.xx += (x * x) / count;
    sums.xy += (x * y) / count;
    sums.yy += (y * y) / count;
    sums.xz += (x * z) / count;
    sums.yz += (y * z) / count;
    sums.zz += (z * z) / count;
  }
  const determinant = sums.xx * sums.yy - sums.xy * sums.xy;
  return determinant > FLAT * (sums.xx + sums.yy) ** 2 ? { meanX, meanY, ...sums } : null;
}

function circleAt(moments: Moments, root: number, radiusSquaredBase: number): Circle | null {
  const { xx, yy, xy, xz, yz } = moments;
  const determinant = root * root - root * (xx + yy) + xx * yy - xy * xy;
  if (Math.abs(determinant) < FLAT * (xx + yy) ** 2) return null;
  const x = (xz * (yy - root) - yz * xy) / determinant / 2;
  const y = (yz * (xx - root) - xz * xy) / determinant / 2;
  return { centreX: moments.meanX + x, centreY: moments.meanY + y, radius: Math.sqrt(x * x + y * y + radiusSquaredBase) };
}

/** Newton from zero climbs monotonically to the smallest root of these polynomials (Chernov 2010). */
function newtonRoot(value: (at: number) => number, slope: (at: number) => number): number {
  let at = 0;
  for (let step = 0; step < 99; step += 1) {
    const next = at - value(at) / slope(at);
    if (!Number.isFinite(next) || Math.abs(value(next)) >= Math.abs(value(at))) break;
    at = next;
  }
  return at;
}
