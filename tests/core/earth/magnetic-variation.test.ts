import { describe, expect, test } from 'vitest';
import { variationDegrees } from '../../../src/core/earth/magnetic-variation.ts';
import { signedDegrees } from '../../../src/core/units/angle.ts';
import wmm from '../../reference/wmm2025.json' with { type: 'json' };

/** The package counts years of 365 days; the published rows name decimal years. */
function epochOfDecimalYear(year: number): number {
  const whole = Math.floor(year);
  return Date.UTC(whole) + (year - whole) * 365 * 86_400_000;
}

describe('magnetic variation against the WMM2025 test values (NOAA NCEI, BGS)', () => {
  test.each(wmm.rows)('$year, $alt_km km, $lat $lon', (row) => {
    const found = variationDegrees({ latitudeDegrees: row.lat, longitudeDegrees: row.lon }, row.alt_km * 1_000, epochOfDecimalYear(row.year));
    if (!found.ok) throw new Error(found.reason);
    // Half the last printed digit.
    expect(Math.abs(signedDegrees(found.variationDegrees - row.decl))).toBeLessThanOrEqual(0.005 + 1e-9);
    expect(found.compass).toBe(row.H < 2_000 ? 'unreliable' : row.H < 6_000 ? 'caution' : 'good');
  });

  test('every published row was there', () => expect(wmm.rows).toHaveLength(50));
});

describe('magnetic variation, limits', () => {
  const lake = { latitudeDegrees: 45, longitudeDegrees: 10 };

  test('says why there is none after the model ends, and before it begins', () => {
    expect(variationDegrees(lake, 3_000, Date.UTC(2029, 10, 13, 2)).ok).toBe(true);
    expect(variationDegrees(lake, 3_000, Date.UTC(2029, 10, 14))).toEqual({ ok: false, reason: expect.stringMatching(/2029/) });
    expect(variationDegrees(lake, 3_000, Date.UTC(2010, 0, 1))).toEqual({ ok: false, reason: expect.stringMatching(/2014/) });
  });

  test('covers every day from its first to its last without a gap between models', () => {
    for (let at = Date.UTC(2014, 11, 15, 7); at <= Date.UTC(2029, 10, 13, 3); at += 30 * 86_400_000) {
      const found = variationDegrees(lake, 3_000, at);
      if (!found.ok) throw new Error(found.reason);
      expect(found.variationDegrees).toBeGreaterThan(1.5);
      expect(found.variationDegrees).toBeLessThan(5);
    }
  });

  test('takes the height in metres: 3 km and 30 m differ by less than 0.02 degrees, 3,000 km would not', () => {
    const low = variationDegrees({ latitudeDegrees: 60, longitudeDegrees: -100 }, 30, Date.UTC(2026, 5, 1));
    const high = variationDegrees({ latitudeDegrees: 60, longitudeDegrees: -100 }, 3_000, Date.UTC(2026, 5, 1));
    if (!low.ok || !high.ok) throw new Error('no variation');
    expect(Math.abs(low.variationDegrees - high.variationDegrees)).toBeLessThan(0.02);
    expect(low.variationDegrees).not.toBe(high.variationDegrees);
  });

  test('names a value that is wrong', () => {
    expect(() => variationDegrees({ latitudeDegrees: 95, longitudeDegrees: 0 }, 0, 0)).toThrow(/latitudeDegrees.*95/);
    expect(() => variationDegrees(lake, NaN, 0)).toThrow(/heightMetres/);
  });
});
