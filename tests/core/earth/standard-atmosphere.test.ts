import { describe, expect, test } from 'vitest';
import {
  celsiusFromKelvin,
  densityAltitudeMetres,
  geopotentialFromGeometric,
  kelvinFromCelsius,
  soundMetresPerSecond,
  standardDensity,
  standardPressurePascals,
  standardTemperatureKelvin,
} from '../../../src/core/earth/standard-atmosphere.ts';
import { feetFromMetres, metresFromFeet } from '../../../src/core/units/quantity.ts';
import atmosphere from '../../reference/atmosphere.json' with { type: 'json' };

describe('standard atmosphere (USSA 1976)', () => {
  test.each(atmosphere.rows)('$geopotential_ft ft', (row) => {
    const metres = metresFromFeet(row.geopotential_ft);
    expect(Math.abs(standardTemperatureKelvin(metres) - row.T_K)).toBeLessThan(1e-4);
    expect(Math.abs(standardPressurePascals(metres) - row.p_Pa)).toBeLessThan(0.006);
    expect(Math.abs(standardDensity(metres) - row.rho_kg_m3)).toBeLessThan(1e-6);
    expect(Math.abs(soundMetresPerSecond(row.T_K) - row.a_m_s)).toBeLessThan(1e-4);
  });

  test.each(atmosphere.geometric_altitude_rows)('$geometric_ft ft geometric', (row) => {
    const metres = geopotentialFromGeometric(metresFromFeet(row.geometric_ft));
    expect(Math.abs(metres - row.geopotential_m)).toBeLessThan(6e-4);
    expect(Math.abs(standardPressurePascals(metres) - row.p_Pa)).toBeLessThan(0.006);
  });

  test.each(atmosphere.phak_fig_11_2.rows)('handbook figure 11-2 at %d ft', (feet, inches, celsius) => {
    const metres = metresFromFeet(feet ?? NaN);
    // The printed pressures are cut, not rounded, from 8,000 ft up.
    expect(Math.abs(standardPressurePascals(metres) / 3_386.389 - (inches ?? NaN))).toBeLessThan(0.011);
    expect(Math.abs(celsiusFromKelvin(standardTemperatureKelvin(metres)) - (celsius ?? NaN))).toBeLessThan(0.06);
  });

  test('every row was there', () => {
    expect(atmosphere.rows).toHaveLength(12);
    expect(atmosphere.geometric_altitude_rows).toHaveLength(4);
    expect(atmosphere.phak_fig_11_2.rows).toHaveLength(10);
  });

  test('is continuous at the tropopause and isothermal above it', () => {
    expect(standardPressurePascals(11_000)).toBeCloseTo(22_632.06, 1);
    expect(standardTemperatureKelvin(15_000)).toBeCloseTo(216.65, 9);
    // The base of the next layer (USSA 1976, table 4; from memory).
    expect(Math.abs(standardPressurePascals(20_000) - 5_474.89)).toBeLessThan(0.02);
    expect(Math.abs(standardPressurePascals(11_000.01) - standardPressurePascals(10_999.99))).toBeLessThan(0.1);
  });

  test('refuses heights it does not know', () => {
    expect(() => standardPressurePascals(20_001)).toThrow(/20001/);
    expect(() => standardDensity(NaN)).toThrow(RangeError);
  });
});

describe('density altitude (FAA-H-8083-25C ch. 8)', () => {
  const { cases, exact_here_ft: exact, field_elev_ft: field } = atmosphere.density_altitude_example;
  test.each(cases.map((row, index) => ({ ...row, exactFeet: exact[index] ?? NaN })))('$oat_C C', (row) => {
    const feet = feetFromMetres(densityAltitudeMetres(metresFromFeet(field), kelvinFromCelsius(row.oat_C)));
    expect(Math.abs(feet - row.exactFeet)).toBeLessThan(0.06);
    expect(Math.abs(feet - row.density_alt_ft)).toBeLessThan(5);
  });
});
