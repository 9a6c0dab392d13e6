import { fc } from '../../property.ts';
import { describe, expect, test } from 'vitest';
import { CALM, windFromVector, windVectorFrom } from '../../../src/core/earth/wind-vector.ts';
import { signedRadians } from '../../../src/core/units/angle.ts';

describe('wind vectors', () => {
  test('a wind from the west blows east, from the north blows south', () => {
    const west = windVectorFrom({ fromRadians: (3 * Math.PI) / 2, speedMetresPerSecond: 10 });
    expect(west.eastMetresPerSecond).toBeCloseTo(10, 12);
    expect(west.northMetresPerSecond).toBeCloseTo(0, 12);
    expect(windVectorFrom({ fromRadians: 0, speedMetresPerSecond: 4 }).northMetresPerSecond).toBeCloseTo(-4, 12);
  });

  test('there and back', () => {
    const from = fc.double({ min: 0, max: 6.28, noNaN: true });
    const speed = fc.double({ min: 1e-6, max: 100, noNaN: true });
    fc.assert(
      fc.property(from, speed, (fromRadians, speedMetresPerSecond) => {
        const back = windFromVector(windVectorFrom({ fromRadians, speedMetresPerSecond }));
        expect(Math.abs(signedRadians(back.fromRadians - fromRadians))).toBeLessThan(1e-12);
        expect(back.speedMetresPerSecond).toBeCloseTo(speedMetresPerSecond, 9);
        expect(back.fromRadians).toBeGreaterThanOrEqual(0);
        expect(back.fromRadians).toBeLessThan(2 * Math.PI);
      }),
    );
  });

  test('a calm has a direction that is a number', () => {
    expect(windFromVector(CALM)).toEqual({ fromRadians: 0, speedMetresPerSecond: 0 });
  });

  test('names a value that is wrong', () => {
    expect(() => windVectorFrom({ fromRadians: 0, speedMetresPerSecond: -1 })).toThrow(/-1/);
    expect(() => windVectorFrom({ fromRadians: NaN, speedMetresPerSecond: 1 })).toThrow(/fromRadians/);
  });
});
