import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Circle, geometricCircle, kasaCircle, prattCircle, taubinCircle } from '../../../src/core/tracking/circle-fit.ts';
import wind from '../../reference/wind.json' with { type: 'json' };

const { x: xs, y: ys, results } = wind.circle_fit;
const example = xs.map((x, index) => ({ x, y: ys[index] ?? NaN }));

function expectCircle(found: Circle | null, expected: { cx: number; cy: number; r: number }, within: number): void {
  expect(Math.abs((found?.centreX ?? NaN) - expected.cx)).toBeLessThan(within);
  expect(Math.abs((found?.centreY ?? NaN) - expected.cy)).toBeLessThan(within);
  expect(Math.abs((found?.radius ?? NaN) - expected.r)).toBeLessThan(within);
}

describe('the example of Gander, Golub and Strebel (BIT 34, 1994), values recomputed with numpy', () => {
  test('Kasa', () => expectCircle(kasaCircle(example), results.kasa, 1e-9));
  test('Pratt', () => expectCircle(prattCircle(example), results.pratt, 1e-9));
  test('Taubin', () => expectCircle(taubinCircle(example), results.taubin, 1e-9));
  test('geometric', () => {
    const found = geometricCircle(example);
    expectCircle(found, results.geometric, 1e-6);
    expect(found?.converged).toBe(true);
    expect(Math.abs((found?.residual ?? NaN) - results.geometric.sum_sq_dist)).toBeLessThan(1e-9);
  });
  test('six points were there', () => expect(example).toHaveLength(6));
});

describe('circle fits, properties', () => {
  const circles = fc.record({
    cx: fc.double({ min: -40, max: 40, noNaN: true }),
    cy: fc.double({ min: -40, max: 40, noNaN: true }),
    r: fc.double({ min: 20, max: 100, noNaN: true }),
    from: fc.double({ min: 0, max: 6, noNaN: true }),
    sweep: fc.double({ min: 0.5, max: 6, noNaN: true }),
    count: fc.integer({ min: 4, max: 30 }),
  });

  test('points of a circle give that circle, every way', () => {
    fc.assert(
      fc.property(circles, ({ cx, cy, r, from, sweep, count }) => {
        const points = Array.from({ length: count }, (_, index) => {
          const at = from + (sweep * index) / (count - 1);
          return { x: cx + r * Math.cos(at), y: cy + r * Math.sin(at) };
        });
        for (const fit of [kasaCircle, prattCircle, taubinCircle, geometricCircle]) expectCircle(fit(points), { cx, cy, r }, 1e-5);
      }),
    );
  });

  test('the geometric residual is the least: no neighbour is better', () => {
    const found = geometricCircle(example);
    if (found === null) throw new Error('no circle');
    const residual = (circle: Circle) =>
      example.reduce((sum, point) => sum + (Math.hypot(point.x - circle.centreX, point.y - circle.centreY) - circle.radius) ** 2, 0);
    for (const [dx, dy, dr] of [
      [1e-3, 0, 0],
      [-1e-3, 0, 0],
      [0, 1e-3, 0],
      [0, -1e-3, 0],
      [0, 0, 1e-3],
      [0, 0, -1e-3],
    ] as const) {
      const near = { centreX: found.centreX + dx, centreY: found.centreY + dy, radius: found.radius + dr };
      expect(residual(near)).toBeGreaterThan(found.residual);
    }
  });

  test('no circle through a line, through two points, through one point thrice', () => {
    const line = [0, 1, 2, 3].map((at) => ({ x: at, y: 2 * at }));
    for (const fit of [kasaCircle, prattCircle, taubinCircle, geometricCircle]) {
      expect(fit(line)).toBeNull();
      expect(fit(line.slice(0, 2))).toBeNull();
      expect(
        fit([
          { x: 1, y: 1 },
          { x: 1, y: 1 },
          { x: 1, y: 1 },
        ]),
      ).toBeNull();
      expect(() =>
        fit([
          { x: NaN, y: 0 },
          { x: 1, y: 1 },
          { x: 2, y: 0 },
        ]),
      ).toThrow(RangeError);
    }
  });
});
