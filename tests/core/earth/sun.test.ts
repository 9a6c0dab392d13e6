import { Body, Equator, Horizon, Observer } from 'astronomy-engine';
import { fc } from '../../property.ts';
import { describe, expect, test } from 'vitest';
import { separationRadians, sunAt, sunDay } from '../../../src/core/earth/sun.ts';
import { degreesFromRadians, radiansFromDegrees, signedDegrees } from '../../../src/core/units/angle.ts';
import sun from '../../reference/sun.json' with { type: 'json' };

/** What each field may differ by, over all rows: the most, and on the average. */
const TOLERANCES = {
  azimuthDegrees: { most: 0.012, mean: 0.006 },
  elevationDegrees: { most: 0.015, mean: 0.007 },
  riseSeconds: { most: 20, mean: 4 },
  setSeconds: { most: 20, mean: 4 },
  noonSeconds: { most: 4, mean: 2 },
  dawnSeconds: { most: 10, mean: 3 },
  duskSeconds: { most: 10, mean: 4 },
} as const;

function expectWithin(field: keyof typeof TOLERANCES, differences: readonly number[]): void {
  const sizes = differences.map(Math.abs);
  expect(Math.max(...sizes), `${field}, the most`).toBeLessThanOrEqual(TOLERANCES[field].most);
  expect(sizes.reduce((sum, each) => sum + each, 0) / sizes.length, `${field}, the mean`).toBeLessThanOrEqual(TOLERANCES[field].mean);
}

/** An azimuth's error counts as it is seen: near the zenith it shrinks. */
function azimuthDifferenceDegrees(found: number, expected: number, elevationDegrees: number): number {
  return signedDegrees(found - expected) * Math.cos(radiansFromDegrees(elevationDegrees));
}

function positionDegrees(latitudeDegrees: number, longitudeDegrees: number, at: number): { azimuth: number; elevation: number } {
  const { azimuthRadians, elevationRadians } = sunAt({ latitudeDegrees, longitudeDegrees }, at);
  return { azimuth: degreesFromRadians(azimuthRadians), elevation: degreesFromRadians(elevationRadians) };
}

describe('the published example (Reda and Andreas, NREL/TP-560-34302, table A5.1)', () => {
  const { input, expected } = sun.nrel_spa;
  const found = positionDegrees(input.lat_deg, input.lon_deg, Date.parse(input.utc));

  test('azimuth and elevation within 0.02 degrees', () => {
    expect(Math.abs(found.azimuth - expected.azimuth_from_north_east)).toBeLessThan(0.01);
    // The example's air is 820 mbar at 11 C, suncalc's is standard: 0.003 degrees of refraction apart.
    expect(Math.abs(found.elevation - expected.elevation_e)).toBeLessThan(0.01);
    expect(Math.abs(90 - found.elevation - expected.zenith)).toBeLessThan(0.01);
  });
});

describe('positions against astronomy-engine 2.1.19 and ERFA', () => {
  const up = sun.positions.rows.filter((row) => row.altitude_deg > 0);
  const down = sun.positions.rows.filter((row) => row.altitude_deg <= 0);

  test('every row was there, by day and by night', () => {
    expect(sun.positions.rows).toHaveLength(20);
    expect(up.length).toBeGreaterThan(10);
    expect(down.length).toBeGreaterThan(0);
  });

  test('above the horizon, refraction included', () => {
    const found = up.map((row) => ({ row, ...positionDegrees(row.lat_deg, row.lon_deg, Date.parse(row.utc)) }));
    expectWithin(
      'azimuthDegrees',
      found.map(({ row, azimuth, elevation }) => azimuthDifferenceDegrees(azimuth, row.azimuth_deg, elevation)),
    );
    expectWithin(
      'elevationDegrees',
      found.map(({ row, elevation }) => elevation - (row.altitude_refracted_deg ?? NaN)),
    );
  });

  test('below it, refraction stays at 0.4845 degrees', () => {
    const found = down.map((row) => ({ row, ...positionDegrees(row.lat_deg, row.lon_deg, Date.parse(row.utc)) }));
    expectWithin(
      'elevationDegrees',
      found.map(({ row, elevation }) => elevation - 0.4845 - row.altitude_deg),
    );
  });

  test('forty more, computed beside it now', () => {
    const found = Array.from({ length: 40 }, (_, index) => {
      // Steps without a common measure spread the forty over years, hours and latitudes from 66 S to 66 N.
      const at = Date.UTC(2026, 0, 1) + index * 27.31 * 86_400_000;
      const latitude = -66 + ((index * 53.7) % 132);
      const longitude = -180 + ((index * 97.3) % 360);
      const observer = new Observer(latitude, longitude, 0);
      const equator = Equator(Body.Sun, new Date(at), observer, true, true);
      const truth = Horizon(new Date(at), observer, equator.ra, equator.dec, 'normal');
      return { truth, ...positionDegrees(latitude, longitude, at) };
    });
    const day = found.filter((each) => each.truth.altitude > 0.5);
    expect(found).toHaveLength(40);
    expect(day.length).toBeGreaterThan(12);
    expectWithin(
      'azimuthDegrees',
      found.map(({ truth, azimuth, elevation }) => azimuthDifferenceDegrees(azimuth, truth.azimuth, elevation)),
    );
    expectWithin(
      'elevationDegrees',
      day.map(({ truth, elevation }) => elevation - truth.altitude),
    );
  });
});

describe('rise, set and twilight against astronomy-engine 2.1.19', () => {
  const rows = sun.rise_set.rows.map((row) => ({
    row,
    day: sunDay({ latitudeDegrees: row.lat_deg, longitudeDegrees: row.lon_deg }, Date.parse(row.search_start_utc) + 12 * 3_600_000),
  }));
  const seconds = (found: number | null, expected: string | null): number[] =>
    found === null || expected === null ? [] : [(found - Date.parse(expected)) / 1_000];

  test('every row was there', () => expect(rows).toHaveLength(20));

  test('an event is null exactly where there is none, and the kind says why', () => {
    for (const { row, day } of rows) {
      expect([row.place, day.riseMilliseconds === null]).toEqual([row.place, row.sunrise_utc === null]);
      expect([row.place, day.setMilliseconds === null]).toEqual([row.place, row.sunset_utc === null]);
      const polar = row.noon_altitude_deg > 0 ? 'polar day' : 'polar night';
      expect([row.place, day.kind]).toEqual([row.place, row.sunrise_utc === null ? polar : 'day and night']);
    }
    expect(rows.some(({ row }) => row.sunrise_utc === null)).toBe(true);
  });

  test('times', () => {
    expectWithin(
      'riseSeconds',
      rows.flatMap(({ row, day }) => seconds(day.riseMilliseconds, row.sunrise_utc)),
    );
    expectWithin(
      'setSeconds',
      rows.flatMap(({ row, day }) => seconds(day.setMilliseconds, row.sunset_utc)),
    );
    expectWithin(
      'noonSeconds',
      rows.flatMap(({ row, day }) => seconds(day.noonMilliseconds, row.solar_noon_utc)),
    );
    expectWithin(
      'dawnSeconds',
      rows.flatMap(({ row, day }) => seconds(day.dawnMilliseconds, row.civil_dawn_utc)),
    );
    expectWithin(
      'duskSeconds',
      rows.flatMap(({ row, day }) => seconds(day.duskMilliseconds, row.civil_dusk_utc)),
    );
  });

  test('polar day and polar night', () => {
    const north = { latitudeDegrees: 78.2, longitudeDegrees: 15.6 };
    expect(sunDay(north, Date.UTC(2026, 5, 21, 12))).toMatchObject({ kind: 'polar day', riseMilliseconds: null, setMilliseconds: null });
    expect(sunDay(north, Date.UTC(2026, 11, 21, 12))).toMatchObject({ kind: 'polar night', dawnMilliseconds: null });
  });

  test('any instant of a solar day gives that day, across the antimeridian too', () => {
    for (const longitudeDegrees of [-179.9, 179.9, 10]) {
      const point = { latitudeDegrees: -18, longitudeDegrees };
      const noon = sunDay(point, Date.UTC(2026, 3, 10, 12)).noonMilliseconds;
      expect(sunDay(point, noon - 11.9 * 3_600_000).noonMilliseconds).toBe(noon);
      expect(sunDay(point, noon + 11.9 * 3_600_000).noonMilliseconds).toBe(noon);
    }
  });
});

describe('separation of two directions', () => {
  const directions = fc.record({
    azimuthRadians: fc.double({ min: 0, max: 6.28, noNaN: true }),
    elevationRadians: fc.double({ min: -1.57, max: 1.57, noNaN: true }),
  });
  test('is the angle between their unit vectors', () => {
    fc.assert(
      fc.property(directions, directions, (one, other) => {
        const dot =
          Math.sin(one.elevationRadians) * Math.sin(other.elevationRadians) +
          Math.cos(one.elevationRadians) * Math.cos(other.elevationRadians) * Math.cos(one.azimuthRadians - other.azimuthRadians);
        expect(Math.cos(separationRadians(one, other))).toBeCloseTo(dot, 9);
        expect(separationRadians(one, other)).toBe(separationRadians(other, one));
      }),
    );
  });
  test('keeps small angles', () => {
    const one = { azimuthRadians: 1, elevationRadians: 0 };
    expect(separationRadians(one, { ...one, azimuthRadians: 1 + 1e-9 }) / 1e-9).toBeCloseTo(1, 6);
    expect(separationRadians(one, one)).toBe(0);
  });
});

test('names a value that is wrong', () => {
  expect(() => sunAt({ latitudeDegrees: 91, longitudeDegrees: 0 }, 0)).toThrow(/latitudeDegrees.*91/);
  expect(() => sunDay({ latitudeDegrees: 0, longitudeDegrees: NaN }, 0)).toThrow(/longitudeDegrees/);
  expect(() => sunAt({ latitudeDegrees: 0, longitudeDegrees: 0 }, NaN)).toThrow(/epochMilliseconds/);
});
