import { Geodesic } from 'geographiclib-geodesic';
import { describe, expect, test } from 'vitest';
import { bearingDistance } from '../../../src/core/earth/bearing-distance.ts';
import { degreesFromRadians, signedDegrees } from '../../../src/core/units/angle.ts';
import geodesy from '../../reference/geodesy.json' with { type: 'json' };

describe('bearing and distance against geodesics (GeographicLib GeodSolve 2.1.2)', () => {
  test.each(geodesy.direct_inverse.rows)('$kind, $s12 m', (row) => {
    const from = { latitudeDegrees: row.lat1, longitudeDegrees: row.lon1 };
    const to = { latitudeDegrees: row.lat2, longitudeDegrees: row.lon2 };
    const found = bearingDistance(from, to);
    expect(Math.abs(found.distanceMetres - row.inverse.s12)).toBeLessThan(0.02);
    expect(Math.abs(signedDegrees(degreesFromRadians(found.bearingRadians) - row.inverse.azi1))).toBeLessThan(2e-5);
  });

  test('500 km away, against the library', () => {
    const line = Geodesic.WGS84.Direct(47, 8, 60, 500_000);
    const found = bearingDistance({ latitudeDegrees: 47, longitudeDegrees: 8 }, { latitudeDegrees: line.lat2 ?? NaN, longitudeDegrees: line.lon2 ?? NaN });
    expect(Math.abs(found.distanceMetres - 500_000)).toBeLessThan(0.02);
    expect(Math.abs(degreesFromRadians(found.bearingRadians) - 60)).toBeLessThan(0.01);
  });

  test('a point opposite on the earth is somewhere near half its girth away, and no number is lost', () => {
    const { distanceMetres } = bearingDistance({ latitudeDegrees: 0.2, longitudeDegrees: 10 }, { latitudeDegrees: -0.1, longitudeDegrees: -169.8 });
    expect(Math.abs(distanceMetres / 20_003_931 - 1)).toBeLessThan(0.01);
  });

  test('a point from itself', () => {
    const point = { latitudeDegrees: 10, longitudeDegrees: 20 };
    expect(bearingDistance(point, point)).toEqual({ bearingRadians: 0, distanceMetres: 0 });
  });
});
