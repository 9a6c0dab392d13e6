import { fc } from '../../property.ts';
import { describe, expect, test } from 'vitest';
import { type Circle, kasaCircle, taubinCircle } from '../../../src/core/tracking/circle-fit.ts';
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
  test('Taubin', () => expectCircle(taubinCircle(example), results.taubin, 1e-9));
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

  test('points of a circle give that circle, both ways', () => {
    fc.assert(
      fc.property(circles, ({ cx, cy, r, from, sweep, count }) => {
        const points = Array.from({ length: count }, (_, index) => {
          const at = from + (sweep * index) / (count - 1);
          return { x: cx + r * Math.cos(at), y: cy + r * Math.sin(at) };
        });
        for (const fit of [kasaCircle, taubinCircle]) expectCircle(fit(points), { cx, cy, r }, 1e-5);
      }),
    );
  });

  test('no circle through a line, through two points, through one point thrice', () => {
    const line = [0, 1, 2, 3].map((at) => ({ x: at, y: 2 * at }));
    for (const fit of [kasaCircle, taubinCircle]) {
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
