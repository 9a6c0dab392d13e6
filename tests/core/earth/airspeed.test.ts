import { fc } from '../../property.ts';
import { describe, expect, test } from 'vitest';
import { calibratedFromTrue, trueFromCalibrated } from '../../../src/core/earth/airspeed.ts';
import { kelvinFromCelsius, standardDensity } from '../../../src/core/earth/standard-atmosphere.ts';
import { knotsFromMetresPerSecond, metresFromFeet, metresPerSecondFromKnots } from '../../../src/core/units/quantity.ts';
import atmosphere from '../../reference/atmosphere.json' with { type: 'json' };

describe('calibrated to true airspeed, compressible (subsonic pitot formula)', () => {
  test.each(atmosphere.cas_to_tas.rows)('$cas_kt kt at $pressure_alt_ft ft, $oat_C C', (row) => {
    const metres = metresFromFeet(row.pressure_alt_ft);
    const kelvin = kelvinFromCelsius(row.oat_C);
    const knots = knotsFromMetresPerSecond(trueFromCalibrated(metresPerSecondFromKnots(row.cas_kt), metres, kelvin));
    expect(Math.abs(knots - row.tas_kt_compressible)).toBeLessThan(6e-4);
    const back = calibratedFromTrue(metresPerSecondFromKnots(knots), metres, kelvin);
    expect(knotsFromMetresPerSecond(back)).toBeCloseTo(row.cas_kt, 9);
  });

  test('every row was there', () => expect(atmosphere.cas_to_tas.rows).toHaveLength(12));

  test('the rule of 2 % a thousand feet (FAA-H-8083-25C ch. 8) holds within 4 % in standard air', () => {
    for (const row of atmosphere.cas_to_tas.rows.filter((each) => Math.abs(each.oat_C - (15 - 0.0019812 * each.pressure_alt_ft)) < 0.1)) {
      const metres = metresFromFeet(row.pressure_alt_ft);
      const knots = knotsFromMetresPerSecond(trueFromCalibrated(metresPerSecondFromKnots(row.cas_kt), metres, kelvinFromCelsius(row.oat_C)));
      expect(Math.abs(knots / row.tas_kt_rule_2pct_per_1000ft - 1)).toBeLessThan(0.04);
    }
  });
});

describe('airspeed, properties', () => {
  const speeds = fc.double({ min: 0, max: 150, noNaN: true });
  const heights = fc.double({ min: -300, max: 6_000, noNaN: true });
  const temperatures = fc.double({ min: 230, max: 315, noNaN: true });

  test('there and back', () => {
    fc.assert(
      fc.property(speeds, heights, temperatures, (speed, metres, kelvin) => {
        expect(calibratedFromTrue(trueFromCalibrated(speed, metres, kelvin), metres, kelvin)).toBeCloseTo(speed, 9);
      }),
    );
  });

  test('slow air is incompressible: CAS over the root of the density ratio', () => {
    const ratio = standardDensity(3_048) / standardDensity(0);
    expect(trueFromCalibrated(1, 3_048, 268.338)).toBeCloseTo(1 / Math.sqrt(ratio), 5);
  });

  test('refuses what is not an airspeed', () => {
    expect(() => trueFromCalibrated(-1, 0, 288)).toThrow(/-1/);
    expect(() => trueFromCalibrated(NaN, 0, 288)).toThrow(RangeError);
    expect(() => trueFromCalibrated(300, 15_000, 216)).toThrow(/sound/);
    expect(() => calibratedFromTrue(60, 0, -4)).toThrow(/temperatureKelvin/);
  });
});
