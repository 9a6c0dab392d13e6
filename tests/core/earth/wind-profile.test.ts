import { celsiusFromKelvin } from '../../../src/core/earth/standard-atmosphere.ts';
import { fc } from '../../property.ts';
import { describe, expect, test } from 'vitest';
import { standardTemperatureKelvin } from '../../../src/core/earth/standard-atmosphere.ts';
import { HELD_METRES, LIGHT_STANDARD_DEVIATION, shearAt, temperatureAt, type WindAt, windAt, type WindProfile } from '../../../src/core/earth/wind-profile.ts';
import { windProfileFromJob } from '../../../src/core/job/job-winds.ts';
import { windFromVector } from '../../../src/core/earth/wind-vector.ts';
import type { JobWind } from '../../../src/core/job/job.ts';
import { degreesFromRadians } from '../../../src/core/units/angle.ts';
import { knotsFromMetresPerSecond, metresFromFeet } from '../../../src/core/units/quantity.ts';

const row = (altitudeFeet: number, fromDegreesTrue: number | null, speedKnots: number, temperatureCelsius: number | null = null): JobWind => ({
  altitudeFeet,
  fromDegreesTrue,
  speedKnots,
  temperatureCelsius,
});

function profileOf(...rows: JobWind[]): WindProfile {
  const found = windProfileFromJob(rows);
  if (!found.ok) throw new Error(found.reason);
  return found.profile;
}

function known(profile: WindProfile, feet: number): WindAt & { fromDegrees: number; knots: number } {
  const found = windAt(profile, metresFromFeet(feet));
  if (!found.ok) throw new Error(found.reason);
  const { fromRadians, speedMetresPerSecond } = windFromVector(found.wind);
  return { ...found, fromDegrees: degreesFromRadians(fromRadians), knots: knotsFromMetresPerSecond(speedMetresPerSecond) };
}

describe('wind between heights', () => {
  const profile = profileOf(row(12_000, 360, 20, -6), row(9_000, 270, 20, 0), row(18_000, 10, 40, -18));

  test('is interpolated by components', () => {
    const half = known(profile, 10_500);
    expect(half.fromDegrees).toBeCloseTo(315, 9);
    expect(half.knots).toBeCloseTo(20 / Math.SQRT2, 9);
    expect(half).toMatchObject({ standardDeviationMetresPerSecond: 0, directionKnown: true, heldMetres: 0 });
  });

  test('through north it does not swing through south', () => {
    expect(known(profileOf(row(9_000, 350, 20), row(12_000, 10, 20)), 10_500).fromDegrees % 360).toBeCloseTo(0, 9);
  });

  test('is the row itself at a row', () => {
    expect(known(profile, 12_000).knots).toBeCloseTo(20, 9);
    expect(known(profile, 18_000).knots).toBeCloseTo(40, 9);
  });

  test('is held 500 m beyond the rows and says so, then there is none', () => {
    expect(known(profile, 8_000)).toMatchObject({ heldMetres: expect.closeTo(-304.8, 6), fromDegrees: expect.closeTo(270, 9) });
    expect(windAt(profile, metresFromFeet(9_000) - HELD_METRES - 1)).toEqual({ ok: false, reason: expect.stringMatching(/lowest wind given is 9,000 ft/) });
    expect(windAt(profile, metresFromFeet(18_000) + HELD_METRES + 1)).toEqual({ ok: false, reason: expect.stringMatching(/highest wind given is 18,000 ft/) });
  });

  test('never blows harder than the harder of the two rows, and stays between the components', () => {
    const winds = fc.record({ from: fc.double({ min: 0, max: 360, noNaN: true }), knots: fc.double({ min: 0, max: 150, noNaN: true }) });
    fc.assert(
      fc.property(winds, winds, fc.double({ min: 0, max: 1, noNaN: true }), (low, high, share) => {
        const found = known(profileOf(row(9_000, low.from, low.knots), row(12_000, high.from, high.knots)), 9_000 + 3_000 * share);
        expect(found.knots).toBeLessThanOrEqual(Math.max(low.knots, high.knots) + 1e-9);
      }),
    );
  });
});

describe('light and variable', () => {
  test('is a mean of nothing with 2.5 kt a component: winds spread evenly under 5 kt', () => {
    const found = known(profileOf(row(9_000, null, 0), row(12_000, 200, 30)), 9_000);
    expect(found.knots).toBe(0);
    expect(knotsFromMetresPerSecond(found.standardDeviationMetresPerSecond)).toBeCloseTo(2.5, 12);
    expect(found.directionKnown).toBe(false);
  });

  test('an even spread over the disc has that deviation', () => {
    let squares = 0;
    let count = 0;
    for (let x = -5; x <= 5; x += 0.02) {
      for (let y = -5; y <= 5; y += 0.02) {
        if (x * x + y * y > 25) continue;
        squares += x * x;
        count += 1;
      }
    }
    expect(Math.sqrt(squares / count)).toBeCloseTo(knotsFromMetresPerSecond(LIGHT_STANDARD_DEVIATION), 2);
  });

  test('fades out towards a known row', () => {
    const profile = profileOf(row(9_000, null, 0), row(12_000, 200, 30));
    expect(known(profile, 9_500).directionKnown).toBe(true);
    expect(known(profile, 9_300).directionKnown).toBe(false);
    expect(knotsFromMetresPerSecond(known(profile, 10_500).standardDeviationMetresPerSecond)).toBeCloseTo(1.25, 9);
    expect(known(profile, 12_000).standardDeviationMetresPerSecond).toBe(0);
  });

  test('a measured calm has a known speed of nothing', () => {
    expect(known(profileOf(row(9_000, 0, 0)), 9_000)).toMatchObject({ directionKnown: true, standardDeviationMetresPerSecond: 0 });
  });
});

describe('shear', () => {
  test('is the difference over the height', () => {
    const shear = shearAt(profileOf(row(9_000, 270, 10), row(12_000, 270, 40)), metresFromFeet(10_500));
    expect(shear?.eastPerSecond).toBeCloseTo((30 * 1852) / 3600 / 914.4, 9);
    expect(shear?.northPerSecond).toBeCloseTo(0, 12);
  });

  test('at a row it is the mean of both sides', () => {
    const profile = profileOf(row(9_000, 270, 10), row(12_000, 270, 40), row(15_000, 270, 40));
    const inside = shearAt(profile, metresFromFeet(10_500))?.eastPerSecond ?? NaN;
    expect(shearAt(profile, metresFromFeet(12_000))?.eastPerSecond).toBeCloseTo(inside / 2, 9);
    expect(shearAt(profile, metresFromFeet(9_000))?.eastPerSecond).toBeCloseTo(inside, 9);
    expect(shearAt(profile, metresFromFeet(15_000))?.eastPerSecond).toBeCloseTo(0, 9);
  });

  test('is unknown from one row, and far outside', () => {
    expect(shearAt(profileOf(row(9_000, 270, 10)), metresFromFeet(9_000))).toBeNull();
    expect(shearAt(profileOf(row(9_000, 270, 10), row(12_000, 270, 10)), metresFromFeet(17_000))).toBeNull();
  });

  test('rows 100 ft apart still give one', () => {
    expect(shearAt(profileOf(row(9_000, 270, 10), row(9_100, 270, 11)), metresFromFeet(9_050))?.eastPerSecond).toBeCloseTo(1852 / 3600 / 30.48, 6);
  });
});

describe('temperature', () => {
  test('is interpolated between rows, as a departure from the standard', () => {
    const profile = profileOf(row(9_000, 200, 10, 10), row(12_000, 200, 10, 4));
    expect(celsiusFromKelvin(temperatureAt(profile, metresFromFeet(10_500)).temperatureKelvin)).toBeCloseTo(7, 6);
    expect(temperatureAt(profile, metresFromFeet(10_500)).source).toBe('winds');
  });

  test('an inversion is kept', () => {
    expect(celsiusFromKelvin(temperatureAt(profileOf(row(9_000, 200, 10, 0), row(12_000, 200, 10, 6)), metresFromFeet(11_000)).temperatureKelvin)).toBeCloseTo(
      4,
      6,
    );
  });

  test('is the standard one where no row tells', () => {
    const metres = metresFromFeet(10_000);
    expect(temperatureAt(null, metres)).toEqual({ temperatureKelvin: standardTemperatureKelvin(metres), source: 'standard atmosphere' });
    expect(temperatureAt(profileOf(row(3_000, 200, 10, 30)), metres).source).toBe('standard atmosphere');
    expect(temperatureAt(profileOf(row(10_000, 200, 10)), metres).source).toBe('standard atmosphere');
  });
});

describe('rows that are no profile', () => {
  test.each([
    [[], /no winds/],
    [[row(9_000, 1, 1), row(9_000, 2, 2)], /two winds are given for 9000 ft/],
    [[row(9_000, NaN, 1)], /9000 ft/],
    [[row(9_000, 10, -1)], /9000 ft/],
  ])('case %#', (rows, reason) => {
    expect(windProfileFromJob(rows)).toEqual({ ok: false, reason: expect.stringMatching(reason) });
  });

  test('a height that is no number throws', () => {
    expect(() => windAt(profileOf(row(9_000, 1, 1)), NaN)).toThrow(RangeError);
  });

  test('80 kt and inverted rows are taken', () => {
    expect(known(profileOf(row(12_000, 270, 80), row(9_000, 90, 80)), 10_500).knots).toBeCloseTo(0, 9);
  });
});
