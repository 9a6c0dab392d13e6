import { describe, expect, test } from 'vitest';
import { geodeticFromSite } from '../../../src/core/earth/geodetic-from-site.ts';
import { bearingDistance } from '../../../src/core/earth/bearing-distance.ts';
import { windVectorFrom } from '../../../src/core/earth/wind-vector.ts';
import { airPoseAt } from '../../../src/core/paths/air-path.ts';
import { placeTextMiddle, siteFromAir } from '../../../src/core/plan/place.ts';
import { driftCorridor } from '../../../src/core/place/drift-corridor.ts';
import { readingWindow } from '../../../src/core/sky/reading-window.ts';
import { trailsFromPlan } from '../../../src/core/sky/trail.ts';
import { radiansFromDegrees } from '../../../src/core/units/angle.ts';
import { metresFromStatuteMiles, metresPerSecondFromKnots, statuteMilesFromMetres } from '../../../src/core/units/quantity.ts';
import { plannedText } from '../sky/planned.ts';

const wind = windVectorFrom({ fromRadians: radiansFromDegrees(270), speedMetresPerSecond: metresPerSecondFromKnots(12.5) });
const wish = { facingRadians: 0, viewElevationRadians: radiansFromDegrees(35), layerAboveSiteMetres: 2_700 };
const readSeconds = 720;
const frame = { facingRadians: 0, middle: placeTextMiddle(wish, wind, readSeconds) };
const plan = plannedText('SAIL', { frame, oilKilogramsPerSecond: 0.34 });
const corridor = driftCorridor(plan, wind, wish.layerAboveSiteMetres, 1_800, 150);

describe('drift corridor', () => {
  test('hangs as wished at the read time', () => {
    const at = driftCorridor(plan, wind, wish.layerAboveSiteMetres, 24 * 72, 150).stations[10];
    expect(at?.atSeconds).toBe(readSeconds);
    expect(at?.elevationRadians).toBeCloseTo(wish.viewElevationRadians, 3);
    expect(Math.min(at?.azimuthRadians ?? NaN, 2 * Math.PI - (at?.azimuthRadians ?? NaN))).toBeLessThan(1e-9);
    expect(at?.distanceMetres).toBeCloseTo(2_700 / Math.tan(wish.viewElevationRadians), 6);
  });

  test("the first smoke is the first stroke's start, found on the map", () => {
    const first = plan.ships[0]?.legs[0];
    if (first === undefined) throw new Error('no leg');
    expect(corridor.firstSmoke).toEqual(siteFromAir(first.path.start, wind, 0));
    const site = { latitudeDegrees: 43.87, longitudeDegrees: -74.43, elevationMetres: 500 };
    const point = geodeticFromSite(corridor.firstSmoke, 3_200, site);
    const { bearingRadians, distanceMetres } = bearingDistance(site, point);
    const { eastMetres, northMetres } = corridor.firstSmoke;
    // On the ground it is nearer by height over radius: 0.05 % at 3,200 m.
    expect(distanceMetres / Math.hypot(eastMetres, northMetres)).toBeCloseTo(1 - 3_200 / 6_371_000, 3);
    expect(Math.sin(bearingRadians)).toBeCloseTo(eastMetres / Math.hypot(eastMetres, northMetres), 5);
  });

  test('runs from the first smoke to the end, by the wind', () => {
    expect(corridor.stations).toHaveLength(25);
    expect(corridor.stations[0]?.atSeconds).toBe(0);
    expect(corridor.stations.at(-1)?.atSeconds).toBe(1_800);
    const [first, last] = [corridor.stations[0]?.middle, corridor.stations.at(-1)?.middle];
    expect((last?.eastMetres ?? NaN) - (first?.eastMetres ?? NaN)).toBeCloseTo(corridor.driftedMetres, 6);
  });

  test('its areas hold all smoke and all flying, and the circles hold the areas', () => {
    const inside = (area: readonly { eastMetres: number; northMetres: number }[], east: number, north: number): boolean =>
      area.every((a, index) => {
        const b = area[(index + 1) % area.length];
        return b !== undefined && (b.eastMetres - a.eastMetres) * (north - a.northMetres) - (b.northMetres - a.northMetres) * (east - a.eastMetres) >= -1e-6;
      });
    for (const trail of trailsFromPlan(plan, 90)) {
      for (const point of trail.points) {
        for (const at of [point.laidAtSeconds, 1_200, 1_800]) {
          const place = siteFromAir(point, wind, Math.max(at, point.laidAtSeconds));
          expect(inside(corridor.smokeArea, place.eastMetres, place.northMetres)).toBe(true);
        }
      }
    }
    for (const leg of plan.ships.flatMap((ship) => ship.legs)) {
      const place = siteFromAir(airPoseAt(leg.path, 0), wind, leg.startSeconds);
      expect(inside(corridor.flightArea, place.eastMetres, place.northMetres)).toBe(true);
    }
    const { centre, radiusMetres } = corridor.wholeCircle;
    for (const corner of [...corridor.smokeArea, ...corridor.flightArea]) {
      expect(Math.hypot(corner.eastMetres - centre.eastMetres, corner.northMetres - centre.northMetres)).toBeLessThanOrEqual(radiusMetres + 1e-3);
    }
  });

  test('without wind it stays', () => {
    const still = driftCorridor(plan, { eastMetresPerSecond: 0, northMetresPerSecond: 0 }, 2_700, 1_800, 150);
    expect(still.driftedMetres).toBe(0);
    expect(still.stations[0]?.middle).toEqual(still.stations.at(-1)?.middle);
  });

  test('an end before the last smoke, or no smoke, is refused', () => {
    expect(() => driftCorridor(plan, wind, 2_700, 10, 150)).toThrow(/untilSeconds/);
    expect(() => driftCorridor({ ...plan, ships: [] }, wind, 2_700, 1_800, 150)).toThrow(/no smoke/);
  });
});

describe('a gentle wind carries a word 10 to 20 miles while it lasts (common practice, no source)', () => {
  const shear = { eastPerSecond: 0, northPerSecond: 0.002 };
  const window = readingWindow(trailsFromPlan(plan, 60), {
    letterHeightMetres: 1_200,
    wind,
    shear,
    layerAboveSiteMetres: wish.layerAboveSiteMetres,
    visibilityMetres: null,
    facingRadians: wish.facingRadians,
  });
  const miles = (seconds: number): number => statuteMilesFromMetres(driftCorridor(plan, wind, 2_700, seconds, 150).driftedMetres);

  test('the order of magnitude, from the likely end of reading to the latest sight of the smoke', () => {
    const goneSeconds = Math.min(...window.letters.map((letter) => letter.gone.highSeconds));
    expect(miles(window.until.likelySeconds)).toBeGreaterThan(3);
    expect(miles(goneSeconds)).toBeGreaterThan(10);
    expect(metresFromStatuteMiles(1)).toBe(1_609.344);
  });
});
