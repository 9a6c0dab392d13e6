import { fc } from '../../property.ts';
import { describe, expect, test } from 'vitest';
import type { SitePoint } from '../../../src/core/earth/site-frame.ts';
import { convexHull, coveringPolygon, smallestCircle, widenedHull } from '../../../src/core/place/area.ts';

const at = (eastMetres: number, northMetres: number): SitePoint => ({ eastMetres, northMetres });
const some = fc.array(fc.record({ eastMetres: fc.integer({ min: -50, max: 50 }), northMetres: fc.integer({ min: -50, max: 50 }) }), {
  minLength: 1,
  maxLength: 25,
});

function leftOfAll(hull: readonly SitePoint[], point: SitePoint): boolean {
  return hull.every((a, index) => {
    const b = hull[(index + 1) % hull.length];
    if (b === undefined) return false;
    const turn = (b.eastMetres - a.eastMetres) * (point.northMetres - a.northMetres) - (b.northMetres - a.northMetres) * (point.eastMetres - a.eastMetres);
    return turn >= -1e-9;
  });
}

describe('convex hull', () => {
  test('a square with points inside and on its sides', () => {
    const hull = convexHull([at(0, 0), at(4, 4), at(2, 2), at(4, 0), at(2, 0), at(0, 4), at(0, 0)]);
    expect(hull).toEqual([at(0, 0), at(4, 0), at(4, 4), at(0, 4)]);
  });
  test('a point, and points on a line', () => {
    expect(convexHull([at(1, 1), at(1, 1)])).toEqual([at(1, 1)]);
    expect(convexHull([at(2, 2), at(0, 0), at(1, 1)])).toEqual([at(0, 0), at(2, 2)]);
  });
  test('holds every point, and only turns left', () => {
    fc.assert(
      fc.property(some, (points) => {
        const hull = convexHull(points);
        if (hull.length < 3) return;
        for (const point of points) expect(leftOfAll(hull, point)).toBe(true);
        for (const corner of hull) expect(points).toContainEqual(corner);
      }),
    );
  });
});

describe('smallest circle', () => {
  test('of two points, of an equilateral triangle, of a flat one', () => {
    expect(smallestCircle([at(0, 0), at(6, 8)])).toEqual({ centre: at(3, 4), radiusMetres: 5 });
    expect(smallestCircle([at(-1, 0), at(1, 0), at(0, Math.sqrt(3))]).radiusMetres).toBeCloseTo(2 / Math.sqrt(3), 9);
    expect(smallestCircle([at(-5, 0), at(5, 0), at(0, 1)]).radiusMetres).toBeCloseTo(5, 9);
    expect(() => smallestCircle([])).toThrow(RangeError);
  });
  test('holds every point, and no circle of two or three of them that does is smaller', () => {
    fc.assert(
      fc.property(
        fc.array(fc.record({ eastMetres: fc.integer({ min: -50, max: 50 }), northMetres: fc.integer({ min: -50, max: 50 }) }), { minLength: 2, maxLength: 9 }),
        (points) => {
          const found = smallestCircle(points);
          const reach = (e: number, n: number): number => Math.max(...points.map((point) => Math.hypot(point.eastMetres - e, point.northMetres - n)));
          expect(reach(found.centre.eastMetres, found.centre.northMetres)).toBeLessThanOrEqual(found.radiusMetres + 1e-6);
          // The smallest radius is where the reach is least: no step to any side makes it less.
          for (let turn = 0; turn < 8; turn += 1) {
            const east = found.centre.eastMetres + 0.01 * Math.cos((turn * Math.PI) / 4);
            const north = found.centre.northMetres + 0.01 * Math.sin((turn * Math.PI) / 4);
            expect(reach(east, north)).toBeGreaterThanOrEqual(found.radiusMetres - 1e-6);
          }
        },
      ),
    );
  });
});

describe('widened hull', () => {
  test('keeps the margin on every side, and little more', () => {
    const wide = widenedHull([at(0, 0), at(100, 0), at(100, 100), at(0, 100)], 10);
    for (const point of [
      at(-10, 50),
      at(110, 50),
      at(50, -10),
      at(50, 110),
      at(100 + 10 / Math.SQRT2, 100 + 10 / Math.SQRT2),
      at(100 + 10 * Math.cos(Math.PI / 8), 100 + 10 * Math.sin(Math.PI / 8)),
    ]) {
      expect(leftOfAll(wide, point)).toBe(true);
    }
    expect(leftOfAll(wide, at(-12, 50))).toBe(false);
  });
});

describe('a polygon of few corners', () => {
  const area = (points: readonly { readonly eastMetres: number; readonly northMetres: number }[]): number =>
    points.reduce((sum, a, index) => {
      const b = points[(index + 1) % points.length]!;
      return sum + (a.eastMetres * b.northMetres - b.eastMetres * a.northMetres) / 2;
    }, 0);

  test('holds every point of the hull it stands for, and is little larger', () => {
    // Corners of an ellipse, so that hulls have many.
    const turn = fc
      .integer({ min: 0, max: 359 })
      .map((degrees) => at(5_000 * Math.cos((degrees * Math.PI) / 180), 2_000 * Math.sin((degrees * Math.PI) / 180)));
    fc.assert(
      fc.property(fc.array(turn, { minLength: 20, maxLength: 60 }), (points) => {
        const hull = convexHull(points);
        fc.pre(hull.length > 12 && area(hull) > 1e6);
        const few = coveringPolygon(hull, 12);
        expect(few.length).toBeLessThanOrEqual(12);
        for (const point of hull) {
          for (const [index, a] of few.entries()) {
            const b = few[(index + 1) % few.length]!;
            const left =
              (b.eastMetres - a.eastMetres) * (point.northMetres - a.northMetres) - (b.northMetres - a.northMetres) * (point.eastMetres - a.eastMetres);
            expect(left).toBeGreaterThan(-1e-3 * Math.hypot(b.eastMetres - a.eastMetres, b.northMetres - a.northMetres));
          }
        }
        expect(area(few) / area(hull)).toBeLessThan(1.15);
      }),
      { numRuns: 60 },
    );
  });

  test('a circle of 100 corners: twelve hold it with under 5 % more area', () => {
    const circle = convexHull(
      Array.from({ length: 100 }, (_, index) => ({
        eastMetres: 1_000 * Math.cos((index * Math.PI) / 50),
        northMetres: 1_000 * Math.sin((index * Math.PI) / 50),
      })),
    );
    const few = coveringPolygon(circle, 12);
    // The regular twelve-sided polygon round a circle has 12 tan(15 degrees) = 3.2154 of its radius squared: 2.4 % more.
    expect(area(few) / area(circle)).toBeLessThan(1.05);
    expect(area(few)).toBeGreaterThan(area(circle));
  });

  test('what has few corners stays, and under four are refused', () => {
    const square = [
      [0, 0],
      [1, 0],
      [1, 1],
      [0, 1],
    ].map(([eastMetres = 0, northMetres = 0]) => ({ eastMetres, northMetres }));
    expect(coveringPolygon(square, 12)).toEqual(square);
    expect(() => coveringPolygon(square, 3)).toThrow(RangeError);
  });
});
