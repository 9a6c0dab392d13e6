import { fc } from '../../property.ts';
import { Geodesic } from 'geographiclib-geodesic';
import { describe, expect, test } from 'vitest';
import { geodeticFromEastNorthUp, geodeticFromSite } from '../../../src/core/earth/geodetic-from-site.ts';
import { type Site, siteDistanceMetres, siteFromGeodetic } from '../../../src/core/earth/site-frame.ts';
import { signedDegrees } from '../../../src/core/units/angle.ts';
import geodesy from '../../reference/geodesy.json' with { type: 'json' };

const METRES_PER_DEGREE = 111_320;

const sites = fc.record({
  latitudeDegrees: fc.double({ min: -89, max: 89, noNaN: true }),
  longitudeDegrees: fc.double({ min: -180, max: 180, noNaN: true }),
  elevationMetres: fc.double({ min: -400, max: 4_000, noNaN: true }),
});
const near = fc.record({
  eastMetres: fc.double({ min: -60_000, max: 60_000, noNaN: true }),
  northMetres: fc.double({ min: -60_000, max: 60_000, noNaN: true }),
});
const heights = fc.double({ min: 0, max: 7_000, noNaN: true });

describe('site frame against GeographicLib CartConvert 2.1.2 and PROJ 9.1.1', () => {
  test.each(geodesy.enu.rows)('$ref to $lat $lon', (row) => {
    const site: Site = { latitudeDegrees: row.lat0, longitudeDegrees: row.lon0, elevationMetres: row.h0 };
    const found = siteFromGeodetic({ latitudeDegrees: row.lat, longitudeDegrees: row.lon }, row.h, site);
    expect(Math.abs(found.eastMetres - row.east)).toBeLessThan(1e-5);
    expect(Math.abs(found.northMetres - row.north)).toBeLessThan(1e-5);
    expect(Math.abs(found.upMetres - row.up)).toBeLessThan(1e-5);

    const back = geodeticFromSite({ eastMetres: row.east, northMetres: row.north }, row.h, site);
    expect(Math.abs(back.latitudeDegrees - row.lat) * METRES_PER_DEGREE).toBeLessThan(1e-3);
    expect(Math.abs(signedDegrees(back.longitudeDegrees - row.lon)) * METRES_PER_DEGREE).toBeLessThan(1e-3);
  });

  test('every case was there', () => expect(geodesy.enu.rows).toHaveLength(15));
});

describe('plane distances against geodesics (GeographicLib GeodSolve 2.1.2)', () => {
  test.each(geodesy.direct_inverse.rows)('$kind, azimuth $azi1, $s12 m', (row) => {
    const site: Site = { latitudeDegrees: row.lat1, longitudeDegrees: row.lon1, elevationMetres: 0 };
    const end = siteFromGeodetic({ latitudeDegrees: row.lat2, longitudeDegrees: row.lon2 }, 0, site);
    // The chord's foot falls short of the arc by s^3 / 6 R^2: 0.2 m at 35 km.
    const shortMetres = row.s12 ** 3 / (6 * 6_356_752 ** 2);
    expect(Math.abs(siteDistanceMetres(end) - row.s12)).toBeLessThan(1.1 * shortMetres + 1e-6);
    const bearing = (Math.atan2(end.eastMetres, end.northMetres) * 180) / Math.PI;
    // The normal section leaves the geodesic by some 1e-8 of a turn at these lengths.
    expect(Math.abs(signedDegrees(bearing - row.azi1))).toBeLessThan(2e-5);
  });

  test('every case was there', () => expect(geodesy.direct_inverse.rows).toHaveLength(15));
});

describe('site frame, properties', () => {
  test('a point of a layer comes back within a micrometre', () => {
    fc.assert(
      fc.property(sites, near, heights, (site, point, heightMetres) => {
        const geodetic = geodeticFromSite(point, heightMetres, site);
        const back = siteFromGeodetic(geodetic, heightMetres, site);
        expect(Math.hypot(back.eastMetres - point.eastMetres, back.northMetres - point.northMetres)).toBeLessThan(1e-6);
      }),
    );
  });

  test('east, north and up come back within a micrometre', () => {
    fc.assert(
      fc.property(sites, near, heights, (site, point, upMetres) => {
        const { heightMetres, ...geodetic } = geodeticFromEastNorthUp({ ...point, upMetres }, site);
        const back = siteFromGeodetic(geodetic, heightMetres, site);
        const error = Math.hypot(back.eastMetres - point.eastMetres, back.northMetres - point.northMetres, back.upMetres - upMetres);
        expect(error).toBeLessThan(1e-6);
      }),
    );
  });

  test('layer height scales east and north: 10 km away, 3 km up, 4.7 m', () => {
    const site: Site = { latitudeDegrees: 47, longitudeDegrees: 8, elevationMetres: 0 };
    const east = geodeticFromSite({ eastMetres: 10_000, northMetres: 0 }, 3_000, site);
    const below = siteFromGeodetic(east, 0, site);
    expect(10_000 - below.eastMetres).toBeCloseTo(4.695, 2);
  });

  test('a site on the antimeridian sees both sides of it', () => {
    const site: Site = { latitudeDegrees: -18, longitudeDegrees: 180, elevationMetres: 0 };
    const east = geodeticFromSite({ eastMetres: 5_000, northMetres: 0 }, 3_000, site);
    const west = geodeticFromSite({ eastMetres: -5_000, northMetres: 0 }, 3_000, site);
    expect(east.longitudeDegrees).toBeLessThan(-179.9);
    expect(west.longitudeDegrees).toBeGreaterThan(179.9);
    const same = siteFromGeodetic(east, 3_000, { ...site, longitudeDegrees: -180 });
    expect(same.eastMetres).toBeCloseTo(5_000, 6);
  });

  test('against the geodesic library on the ground, 10 km out', () => {
    fc.assert(
      fc.property(sites, fc.double({ min: 0, max: 360, noNaN: true }), (place, azimuthDegrees) => {
        const site = { ...place, elevationMetres: 0 };
        const line = Geodesic.WGS84.Direct(site.latitudeDegrees, site.longitudeDegrees, azimuthDegrees, 10_000);
        const end = siteFromGeodetic({ latitudeDegrees: line.lat2 ?? NaN, longitudeDegrees: line.lon2 ?? NaN }, 0, site);
        expect(Math.abs(siteDistanceMetres(end) - 10_000)).toBeLessThan(0.006);
      }),
      { numRuns: 50 },
    );
  });
});

describe('site frame, misuse', () => {
  const site: Site = { latitudeDegrees: 0, longitudeDegrees: 0, elevationMetres: 0 };
  test('names the value that is wrong', () => {
    expect(() => siteFromGeodetic({ latitudeDegrees: 91, longitudeDegrees: 0 }, 0, site)).toThrow(/latitudeDegrees.*91/);
    expect(() => siteFromGeodetic({ latitudeDegrees: 0, longitudeDegrees: NaN }, 0, site)).toThrow(/longitudeDegrees/);
    expect(() => geodeticFromSite({ eastMetres: 2e6, northMetres: 0 }, 0, site)).toThrow(RangeError);
    expect(() => geodeticFromSite({ eastMetres: 0, northMetres: 0 }, Infinity, site)).toThrow(/heightMetres/);
  });
});
