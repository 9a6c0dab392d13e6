import { describe, expect, it } from 'vitest';
import { solveWay, type WayLimits } from '../../../../src/core/guidance/ways/solve-way.ts';
import { radiansFromDegrees } from '../../../../src/core/units/angle.ts';

/** Beside the stroke's line and against it: 40 s round to its start. */
const FROM = { airEastMetres: 600, airNorthMetres: 700, directionRadians: Math.PI };
const START = { airEastMetres: 0, airNorthMetres: 0, directionRadians: 0 };
const LIMITS: WayLimits = {
  trueAirspeedMetresPerSecond: 55,
  turningBankRadians: radiansFromDegrees(45),
  maximumBankRadians: radiansFromDegrees(55),
  runInSeconds: 4,
  earliestSeconds: 0,
  near: [{ airEastMetres: 0, airNorthMetres: 350 }],
};

describe('a way that would come before what was proven', () => {
  it('is made longer, by seconds and not by a circle', () => {
    const plain = solveWay(FROM, START, LIMITS, null);
    for (const more of [1, 2, 3]) {
      const held = solveWay(FROM, START, { ...LIMITS, provenFromSeconds: plain.seconds + more }, null);
      expect(held.seconds).toBeGreaterThan(plain.seconds + more - 0.5);
      expect(held.seconds).toBeLessThan(plain.seconds + more + 6);
    }
    expect(solveWay(FROM, START, { ...LIMITS, provenFromSeconds: plain.seconds - 1 }, null)).toEqual(plain);
  });

  it('goes past the line and back, where the turn onto it has no room left to grow', () => {
    const from = { airEastMetres: -814, airNorthMetres: 163, directionRadians: radiansFromDegrees(-52) };
    const near = [-814, -600, -400, -200, 0].map((airEastMetres) => ({ airEastMetres, airNorthMetres: 0 }));
    const limits = { ...LIMITS, near };
    const plain = solveWay(from, START, limits, null);
    const held = solveWay(from, START, { ...limits, provenFromSeconds: plain.seconds + 1.5 }, null);
    expect(held.seconds).toBeGreaterThan(plain.seconds + 1.2);
    expect(held.seconds).toBeLessThan(plain.seconds + 4);
  });
});
