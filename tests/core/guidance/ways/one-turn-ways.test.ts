import { fc } from '../../../property.ts';
import { describe, expect, it } from 'vitest';
import { type OneTurnLimits, oneTurnWays } from '../../../../src/core/guidance/ways/one-turn-ways.ts';
import { airPathEnd } from '../../../../src/core/paths/air-path.ts';

const DEGREE = Math.PI / 180;
const LIMITS: OneTurnLimits = {
  speedMetresPerSecond: 54,
  runInsMetres: [216],
  banksRadians: [20 * DEGREE, 55 * DEGREE],
  runInMetres: [86, 540],
  turnShare: 1,
};
const LINE = { airEastMetres: 0, airNorthMetres: 0, directionRadians: 0 };

describe('ways of one turn', () => {
  it('end at the start of the stroke on its line, from anywhere, by banks and run-ins that were allowed', () => {
    const near = fc.integer({ min: -1000, max: 1000 });
    const pose = fc.record({
      airEastMetres: near,
      airNorthMetres: near,
      directionRadians: fc.integer({ min: -180, max: 180 }).map((degrees) => degrees * DEGREE),
    });
    let seen = 0;
    fc.assert(
      fc.property(pose, pose, (from, start) => {
        for (const way of oneTurnWays(from, start, LIMITS)) {
          seen += 1;
          const end = airPathEnd({ ...way.path, segments: [...way.path.segments, { lengthMetres: way.runInMetres, curvaturePerMetre: 0 }] });
          expect(Math.hypot(end.airEastMetres - start.airEastMetres, end.airNorthMetres - start.airNorthMetres)).toBeLessThan(1e-3);
          expect(Math.cos(end.directionRadians - start.directionRadians)).toBeCloseTo(1, 9);
          expect(way.bankRadians).toBeGreaterThanOrEqual(20 * DEGREE - 2e-6);
          expect(way.bankRadians).toBeLessThanOrEqual(55 * DEGREE + 2e-6);
          expect(way.runInMetres).toBeGreaterThanOrEqual(85.99);
          expect(way.runInMetres).toBeLessThanOrEqual(540.01);
        }
      }),
      { numRuns: 3000 },
    );
    expect(seen).toBeGreaterThan(500);
  });

  // Worked by hand: square to the line and 400 m from it a quarter circle of 400 m leads onto it.
  it('turn at once by the bank that ends on the line', () => {
    const at = { airEastMetres: -700, airNorthMetres: 400, directionRadians: -90 * DEGREE };
    const [first] = oneTurnWays(at, LINE, LIMITS);
    expect(first!.path.segments).toHaveLength(1);
    expect(1 / first!.path.segments[0]!.curvaturePerMetre).toBeCloseTo(400, 6);
    expect(first!.runInMetres).toBeCloseTo(300, 6);
  });

  // Half a circle back onto a parallel line 600 m aside has 300 m of radius, and ends where the line before it does: 500 m on.
  it('go on beside a line flown the other way until half a circle ends at the wanted run-in', () => {
    const at = { airEastMetres: -716, airNorthMetres: 600, directionRadians: Math.PI };
    const ways = oneTurnWays({ ...at, airEastMetres: 284 }, LINE, LIMITS);
    const way = ways.find(({ path: { segments } }) => segments.length === 2);
    expect(way!.path.segments[0]!.lengthMetres).toBeCloseTo(500, 6);
    expect(1 / way!.path.segments[1]!.curvaturePerMetre).toBeCloseTo(300, 6);
    expect(way!.runInMetres).toBeCloseTo(216, 6);
  });

  it('are none away from the line, and none on it', () => {
    expect(oneTurnWays({ airEastMetres: -700, airNorthMetres: 100, directionRadians: 0 }, LINE, LIMITS)).toEqual([]);
    expect(oneTurnWays({ airEastMetres: 900, airNorthMetres: 400, directionRadians: -90 * DEGREE }, LINE, LIMITS)).toEqual([]);
  });
});
