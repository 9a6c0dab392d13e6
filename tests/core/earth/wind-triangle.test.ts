import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { courseHeld, groundMotion } from '../../../src/core/earth/wind-triangle.ts';
import { windVectorFrom } from '../../../src/core/earth/wind-vector.ts';
import { degreesFromRadians, radiansFromDegrees, signedRadians } from '../../../src/core/units/angle.ts';
import { knotsFromMetresPerSecond, metresPerSecondFromKnots } from '../../../src/core/units/quantity.ts';
import reference from '../../reference/wind.json' with { type: 'json' };

const windOf = (fromDegrees: number, knots: number) =>
  windVectorFrom({ fromRadians: radiansFromDegrees(fromDegrees), speedMetresPerSecond: metresPerSecondFromKnots(knots) });

describe('wind triangle (FAA-H-8083-25C, pp. 16-13 to 16-15)', () => {
  const { cases } = reference.wind_triangle;
  test.each(cases)('course $tc, wind $wind_from at $wind_kt', (row) => {
    const found = courseHeld(radiansFromDegrees(row.tc), metresPerSecondFromKnots(row.tas), windOf(row.wind_from, row.wind_kt));
    const knots = knotsFromMetresPerSecond(found?.groundSpeedMetresPerSecond ?? NaN);
    expect(Math.abs(knots - row.handbook.gs)).toBeLessThan(0.5);
    if (row.exact !== undefined) {
      expect(Math.abs(knots - row.exact.gs)).toBeLessThan(1e-4);
      expect(Math.abs(degreesFromRadians(found?.correctionRadians ?? NaN) - row.exact.wca)).toBeLessThan(1e-3);
      expect(Math.abs(degreesFromRadians(found?.headingRadians ?? NaN) - row.exact.th)).toBeLessThan(1e-3);
      // The handbook rounds the ground speed to 88 kt before it divides.
      expect(220 / knots).toBeCloseTo(row.handbook.time_220nm_h ?? NaN, 1);
    }
  });
  test('every case was there', () => expect(cases).toHaveLength(3));
});

describe('wind triangle, properties', () => {
  const courses = fc.double({ min: 0, max: 6.28, noNaN: true });
  const winds = fc.record({ from: fc.double({ min: 0, max: 359, noNaN: true }), knots: fc.double({ min: 0, max: 90, noNaN: true }) });

  test('the heading found makes the course good', () => {
    fc.assert(
      fc.property(courses, winds, (course, wind) => {
        const vector = windOf(wind.from, wind.knots);
        const held = courseHeld(course, 50, vector);
        if (held === null) throw new Error('50 m/s holds any course in 90 kt');
        const motion = groundMotion(held.headingRadians, 50, vector);
        expect(Math.abs(signedRadians(motion.trackRadians - course))).toBeLessThan(1e-9);
        expect(motion.groundSpeedMetresPerSecond).toBeCloseTo(held.groundSpeedMetresPerSecond, 8);
      }),
    );
  });

  test('a wind too strong is no course', () => {
    expect(courseHeld(0, 20, windOf(90, 80))).toBeNull();
    expect(courseHeld(0, 20, windOf(0, 80))).toBeNull();
    expect(() => courseHeld(0, 0, windOf(0, 1))).toThrow(/trueAirspeed/);
    expect(() => courseHeld(NaN, 50, windOf(0, 1))).toThrow(RangeError);
  });
});
