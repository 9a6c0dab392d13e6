import { fc } from '../../property.ts';
import { describe, expect, test } from 'vitest';
import { airPathEnd, type AirPose } from '../../../src/core/paths/air-path.ts';
import { dubinsLengthMetres } from '../../../src/core/paths/dubins-length.ts';
import { dubinsCandidates, shortestDubins } from '../../../src/core/paths/dubins.ts';
import { signedRadians } from '../../../src/core/units/angle.ts';
import reference from '../../reference/dubins.json' with { type: 'json' };

const pose = (airEastMetres: number, airNorthMetres: number, directionRadians: number): AirPose => ({
  airEastMetres,
  airNorthMetres,
  directionRadians,
});

function quickLength(from: AirPose, to: AirPose, radius: number): number {
  const a = from.directionRadians;
  const b = to.directionRadians;
  const east = to.airEastMetres - from.airEastMetres;
  const north = to.airNorthMetres - from.airNorthMetres;
  return dubinsLengthMetres(east, north, a, Math.sin(a), Math.cos(a), b, Math.sin(b), Math.cos(b), radius, 0);
}

function missMetres(end: AirPose, goal: AirPose): number {
  return Math.hypot(end.airEastMetres - goal.airEastMetres, end.airNorthMetres - goal.airNorthMetres);
}

// Open Motion Planning Library 1.5.2, DubinsStateSpace; lengths re-derived with textbook formulas (see the file).
describe('lengths of tests/reference/dubins.json', () => {
  test('160 cases are present', () => expect(reference.cases).toHaveLength(160));

  test.each(reference.cases)('case $id, $kind', (row) => {
    const from = pose(row.x0, row.y0, row.theta0);
    const to = pose(row.x1, row.y1, row.theta1);
    const { lengthMetres, path } = shortestDubins(from, to, row.rho);
    expect(Math.abs(lengthMetres - row.ompl_length)).toBeLessThan(1e-6);
    expect(Math.abs(quickLength(from, to, row.rho) - row.ompl_length)).toBeLessThan(1e-6);
    expect(missMetres(airPathEnd(path), to)).toBeLessThan(1e-6);
  });
});

const anyPose = fc
  .tuple(fc.double({ min: -5e3, max: 5e3, noNaN: true }), fc.double({ min: -5e3, max: 5e3, noNaN: true }), fc.double({ min: -7, max: 7, noNaN: true }))
  .map(([east, north, direction]) => pose(east, north, direction));
const anyRadius = fc.double({ min: 100, max: 900, noNaN: true });

test('every candidate arrives, within a micrometre and a nanoradian', () => {
  fc.assert(
    fc.property(anyPose, anyPose, anyRadius, (from, to, radius) => {
      const candidates = dubinsCandidates(from, to, radius);
      expect(candidates.length).toBeGreaterThanOrEqual(2);
      for (const { path, lengthMetres } of candidates) {
        const end = airPathEnd(path);
        expect(missMetres(end, to)).toBeLessThan(1e-6);
        expect(Math.abs(signedRadians(end.directionRadians - to.directionRadians))).toBeLessThan(1e-8);
        expect(path.segments.reduce((sum, piece) => sum + piece.lengthMetres, 0)).toBeCloseTo(lengthMetres, 6);
      }
    }),
    { numRuns: 500 },
  );
});

test('the quick length is the length of the path', () => {
  fc.assert(
    fc.property(anyPose, anyPose, anyRadius, (from, to, radius) => {
      expect(Math.abs(quickLength(from, to, radius) - shortestDubins(from, to, radius).lengthMetres)).toBeLessThan(1e-6);
    }),
    { numRuns: 2000 },
  );
});

test('flown backwards, the way between two poses is as long', () => {
  const back = (p: AirPose): AirPose => ({ ...p, directionRadians: p.directionRadians + Math.PI });
  fc.assert(
    fc.property(anyPose, anyPose, anyRadius, (from, to, radius) => {
      expect(quickLength(back(to), back(from), radius)).toBeCloseTo(quickLength(from, to, radius), 5);
    }),
  );
});

test.each([0, 0.3, -2.4, Math.PI, 12.9])('the same pose at direction %d is no way at all', (direction) => {
  const at = pose(12_345.678, -98.765, direction);
  expect(shortestDubins(at, at, 293).lengthMetres).toBe(0);
  expect(quickLength(at, at, 293)).toBe(0);
});

test('a pose that differs by rounding alone does not cost a circle', () => {
  fc.assert(
    fc.property(anyPose, fc.double({ min: 0, max: 3000, noNaN: true }), anyRadius, (from, ahead, radius) => {
      const onward = pose(
        from.airEastMetres + ahead * Math.cos(from.directionRadians),
        from.airNorthMetres + ahead * Math.sin(from.directionRadians),
        from.directionRadians + 2 * Math.PI,
      );
      expect(Math.abs(quickLength(from, onward, radius) - ahead)).toBeLessThan(1e-6);
      expect(Math.abs(shortestDubins(from, onward, radius).lengthMetres - ahead)).toBeLessThan(1e-6);
    }),
  );
});

test('a radius of 0 is refused by name', () => {
  expect(() => shortestDubins(pose(0, 0, 0), pose(1, 0, 0), 0)).toThrow(/radiusMetres/);
});
