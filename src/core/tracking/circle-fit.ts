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

/** A circle reached by iteration. */
export interface IteratedCircle extends Circle {
  readonly converged: boolean;
  readonly iterations: number;
  /** Sum of squared distances of the points from the circle. */
  readonly residual: number;
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
 * Meas. 25:8-14). Too small a radius on short arcs; a good start for {@link geometricCircle}.
 *
 * @returns null for fewer than three points, or points on a line
 */
export function kasaCircle(points: readonly CirclePoint[]): Circle | null {
  const moments = momentsOf(points);
  if (moments === null) return null;
  return circleAt(moments, 0, moments.xx + moments.yy);
}

/**
 * Circle under V. Pratt's constraint (1987, SIGGRAPH 21:145-152), by Newton's method on the characteristic polynomial
 * (N. Chernov 2010, Circular and Linear Regression, ch. 5). Nearly unbiased on short arcs.
 *
 * @returns null for fewer than three points, or points on a line
 */
export function prattCircle(points: readonly CirclePoint[]): Circle | null {
  const moments = momentsOf(points);
  if (moments === null) return null;
  const { xx, yy, xy, xz, yz, zz } = moments;
  const z = xx + yy;
  const determinant = xx * yy - xy * xy;
  const spread = zz - z * z;
  const c2 = 4 * determinant - 3 * z * z - zz;
  const c1 = spread * z + 4 * determinant * z - xz * xz - yz * yz;
  const c0 = xz * (xz * yy - yz * xy) + yz * (yz * xx - xz * xy) - spread * determinant;
  const root = newtonRoot(
    (at) => c0 + at * (c1 + at * (c2 + 4 * at * at)),
    (at) => c1 + at * (2 * c2 + 16 * at * at),
  );
  return circleAt(moments, root, z + 2 * root);
}

/**
 * Circle under G. Taubin's constraint (1991, IEEE PAMI 13:1115-1138), by Newton's method as in {@link prattCircle}.
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

/**
 * Circle of the least sum of squared distances, by Levenberg's and Marquardt's method from Taubin's circle.
 * The example of Gander, Golub and Strebel (BIT 34, 1994, 558-578) ends at (4.739782, 2.983533), radius 4.714226.
 *
 * @returns null for fewer than three points, or points on a line; else what it reached, and whether it converged
 */
export function geometricCircle(points: readonly CirclePoint[]): IteratedCircle | null {
  const start = taubinCircle(points) ?? kasaCircle(points);
  if (start === null) return null;
  let circle: Circle = start;
  let residual = residualOf(points, circle);
  let damping = 1e-4;
  for (let iterations = 1; iterations <= 200; iterations += 1) {
    const step = dampedStep(points, circle, damping);
    const next = {
      centreX: circle.centreX + step.x,
      centreY: circle.centreY + step.y,
      radius: circle.radius + step.radius,
    };
    const nextResidual = residualOf(points, next);
    if (nextResidual <= residual) {
      const small = Math.hypot(step.x, step.y, step.radius) <= 1e-12 * (Math.abs(next.centreX) + Math.abs(next.centreY) + next.radius);
      circle = next;
      residual = nextResidual;
      damping /= 10;
      if (small) return { ...circle, converged: true, iterations, residual };
    } else {
      damping *= 10;
      // No step helps any more: the residual stands at its least within rounding.
      if (damping > 1e12) return { ...circle, converged: true, iterations, residual };
    }
  }
  return { ...circle, converged: false, iterations: 200, residual };
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

function residualOf(points: readonly CirclePoint[], circle: Circle): number {
  return points.reduce((sum, { x, y }) => sum + (Math.hypot(x - circle.centreX, y - circle.centreY) - circle.radius) ** 2, 0);
}

function dampedStep(points: readonly CirclePoint[], circle: Circle, damping: number): { x: number; y: number; radius: number } {
  let [uu, uv, vv, u, v, uf, vf, f] = [0, 0, 0, 0, 0, 0, 0, 0];
  const count = points.length;
  for (const point of points) {
    const distance = Math.hypot(point.x - circle.centreX, point.y - circle.centreY);
    // A point on the centre has no direction; it pulls on the radius alone.
    const across = distance === 0 ? 0 : -(point.x - circle.centreX) / distance;
    const up = distance === 0 ? 0 : -(point.y - circle.centreY) / distance;
    const miss = distance - circle.radius;
    uu += across * across;
    uv += across * up;
    vv += up * up;
    u += across;
    v += up;
    uf += across * miss;
    vf += up * miss;
    f += miss;
  }
  // Normal equations of (x, y, radius) with the radius eliminated; its own column is -1 for every point.
  const radiusWeight = count * (1 + damping);
  const a = uu * (1 + damping) - (u * u) / radiusWeight;
  const b = uv - (u * v) / radiusWeight;
  const c = vv * (1 + damping) - (v * v) / radiusWeight;
  const rightX = -uf + (u * f) / radiusWeight;
  const rightY = -vf + (v * f) / radiusWeight;
  const determinant = a * c - b * b;
  if (!(Math.abs(determinant) > 0)) return { x: 0, y: 0, radius: 0 };
  const x = (c * rightX - b * rightY) / determinant;
  const y = (a * rightY - b * rightX) / determinant;
  return { x, y, radius: (f + u * x + v * y) / radiusWeight };
}
