import { Geodesic } from 'geographiclib-geodesic';
import { describe, expect, it } from 'vitest';
import { lookTo } from './look-to.ts';
import { degreesFromRadians, signedDegrees } from '../../../src/core/units/angle.ts';
import geodesy from '../../reference/geodesy.json' with { type: 'json' };

/** Angles in degrees, ranges in metres. */
const TOLERANCE = { angleDegrees: 1e-7, rangeMetres: 1e-4, geodesicDegrees: 0.02 };

// East, north, up by GeographicLib CartConvert 2.1.2 and PROJ 9.1.1 (see the file); the angles follow from those here.
const rows = geodesy.enu.rows;

describe('where to look', () => {
  it('has outside truth to stand on', () => {
    expect(rows.length).toBeGreaterThanOrEqual(15);
  });

  it.each(rows)('agrees with the independent east, north, up of $ref to $lat $lon', ({ lat0, lon0, h0, lat, lon, h, east, north, up }) => {
    const seen = lookTo({ latitudeDegrees: lat, longitudeDegrees: lon }, h, { latitudeDegrees: lat0, longitudeDegrees: lon0, elevationMetres: h0 });
    const flat = Math.hypot(east, north);
    expect(degreesFromRadians(seen.elevationRadians)).toBeCloseTo((Math.atan2(up, flat) * 180) / Math.PI, 6);
    expect(Math.abs(seen.rangeMetres - Math.hypot(flat, up))).toBeLessThan(TOLERANCE.rangeMetres);
    if (flat === 0) return;
    const azimuth = (Math.atan2(east, north) * 180) / Math.PI;
    expect(Math.abs(signedDegrees(degreesFromRadians(seen.azimuthRadians) - azimuth))).toBeLessThan(TOLERANCE.angleDegrees);
  });

  it.each(rows.filter(({ east, north }) => Math.hypot(east, north) > 0))(
    'looks along the geodesic from $ref (Karney 2013, geographiclib-geodesic)',
    ({ lat0, lon0, h0, lat, lon, h }) => {
      const seen = lookTo({ latitudeDegrees: lat, longitudeDegrees: lon }, h, { latitudeDegrees: lat0, longitudeDegrees: lon0, elevationMetres: h0 });
      const along = Geodesic.WGS84.Inverse(lat0, lon0, lat, lon).azi1 ?? NaN;
      // The vertical plane through a raised point and the geodesic to its foot differ by under 0.02 degrees here.
      expect(Math.abs(signedDegrees(degreesFromRadians(seen.azimuthRadians) - along))).toBeLessThan(TOLERANCE.geodesicDegrees);
    },
  );

  it('gives the worked value', () => {
    const seen = lookTo({ latitudeDegrees: 39.692476, longitudeDegrees: -105.0986 }, 3048, {
      latitudeDegrees: 39.742476,
      longitudeDegrees: -105.1786,
      elevationMetres: 1830.14,
    });
    expect(degreesFromRadians(seen.azimuthRadians)).toBeCloseTo(128.958, 3);
    expect(degreesFromRadians(seen.elevationRadians)).toBeCloseTo(7.815, 3);
    expect(seen.rangeMetres).toBeCloseTo(8911.5, 1);
  });

  it('refuses a latitude that is none', () => {
    expect(() => lookTo({ latitudeDegrees: 91, longitudeDegrees: 0 }, 0, { latitudeDegrees: 0, longitudeDegrees: 0, elevationMetres: 0 })).toThrow(RangeError);
  });
});
