import { fc } from '../../property.ts';
import { describe, expect, test } from 'vitest';
import { geodeticFromSite } from '../../../src/core/earth/geodetic-from-site.ts';
import { siteFromGeodetic } from '../../../src/core/earth/site-frame.ts';
import { type Camera, imageOf } from '../../../src/core/sky/camera.ts';
import { evenStretch, shownDepthRadians, shownWidthRadians } from '../../../src/core/sky/shown-size.ts';
import { layerPoint, seenFrom, shownTurnRadians } from '../../../src/core/sky/perspective.ts';
import { degreesFromRadians, radiansFromDegrees, signedRadians } from '../../../src/core/units/angle.ts';
import legibility from '../../reference/legibility.json' with { type: 'json' };

const EYE = { eastMetres: 0, northMetres: 0, upMetres: 0 };
const CAMERA: Camera = { azimuthRadians: 0.3, elevationRadians: 0.6, fieldRadians: 1.2, widthPixels: 800, heightPixels: 600 };

describe('where a point is seen', () => {
  test('north, east, overhead', () => {
    expect(seenFrom({ eastMetres: 0, northMetres: 3_000, upMetres: 3_000 }, EYE)).toMatchObject({ azimuthRadians: 0, elevationRadians: Math.PI / 4 });
    expect(seenFrom({ eastMetres: 5, northMetres: 0, upMetres: 0 }, EYE)).toEqual({ azimuthRadians: Math.PI / 2, elevationRadians: 0, rangeMetres: 5 });
    expect(seenFrom({ eastMetres: 0, northMetres: 0, upMetres: 9 }, EYE)).toEqual({ azimuthRadians: 0, elevationRadians: Math.PI / 2, rangeMetres: 9 });
  });

  test('a layer sinks with distance as WGS 84 has it, within 1 % of the drop', () => {
    const site = { latitudeDegrees: 44, longitudeDegrees: -74, elevationMetres: 0 };
    for (const northMetres of [5_000, 16_000, 40_000]) {
      const point = geodeticFromSite({ eastMetres: 0, northMetres }, 3_200, site);
      const truth = siteFromGeodetic(point, 3_200, site).upMetres;
      const found = layerPoint({ eastMetres: 0, northMetres }, 3_200).upMetres;
      expect(Math.abs(found - truth)).toBeLessThan(0.01 * (3_200 - truth) + 0.01);
    }
    expect(3_200 - layerPoint({ eastMetres: 16_000, northMetres: 0 }, 3_200).upMetres).toBeCloseTo(20.1, 1);
  });
});

describe('how large letters show', () => {
  test.each(legibility.worked)('$letter_height_m m face on at $distance_m m is $arcmin arcmin', (row) => {
    // Straight overhead a flat letter is face on.
    const arcminutes = degreesFromRadians(shownDepthRadians(row.letter_height_m, row.distance_m, Math.PI / 2)) * 60;
    expect(Math.abs(arcminutes - row.arcmin)).toBeLessThan(6e-4);
    expect(degreesFromRadians(shownWidthRadians(row.letter_height_m, row.distance_m, Math.PI / 2)) * 60).toBeCloseTo(arcminutes, 9);
  });

  test('every row was there', () => expect(legibility.worked).toHaveLength(6));

  test('at a slant: near H sin^2(e) / h and W sin(e) / h', () => {
    for (const degrees of [10, 20, 35, 45, 60, 90]) {
      const sine = Math.sin(radiansFromDegrees(degrees));
      // Small letters, so that the small-angle forms hold.
      expect(shownDepthRadians(30, 3_000, radiansFromDegrees(degrees)) / ((30 * sine * sine) / 3_000)).toBeCloseTo(1, 3);
      expect(shownWidthRadians(30, 3_000, radiansFromDegrees(degrees)) / ((30 * sine) / 3_000)).toBeCloseTo(1, 3);
    }
    expect(degreesFromRadians(shownDepthRadians(800, 3_000, Math.PI / 4))).toBeCloseTo(7.662, 3);
  });

  test("is what the eye sees between the letter's near and far edge", () => {
    fc.assert(
      fc.property(fc.double({ min: 100, max: 1_600, noNaN: true }), fc.double({ min: 0.2, max: 1.5, noNaN: true }), (depth, elevation) => {
        const middle = 3_000 / Math.tan(elevation);
        const near = seenFrom({ eastMetres: 0, northMetres: middle - depth / 2, upMetres: 3_000 }, EYE);
        const far = seenFrom({ eastMetres: 0, northMetres: middle + depth / 2, upMetres: 3_000 }, EYE);
        // An edge behind the eye's zenith is seen past the vertical.
        const raised = (point: typeof near): number => (Math.cos(point.azimuthRadians) < 0 ? Math.PI - point.elevationRadians : point.elevationRadians);
        expect(shownDepthRadians(depth, 3_000, elevation)).toBeCloseTo(raised(near) - raised(far), 9);
      }),
    );
  });

  test('the stretch that evens depth and width', () => {
    const elevation = radiansFromDegrees(35);
    const ratio = shownDepthRadians(10 * evenStretch(elevation), 3_000, elevation) / shownWidthRadians(10, 3_000, elevation);
    expect(ratio).toBeCloseTo(1, 5);
    expect(() => evenStretch(0)).toThrow(/elevationRadians/);
    expect(() => shownDepthRadians(10, 0, 1)).toThrow(/aboveEyeMetres/);
  });
});

describe('a text seen from aside', () => {
  test('its reading line turns as the projection says', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 6.28, noNaN: true }),
        fc.double({ min: -1.2, max: 1.2, noNaN: true }),
        fc.double({ min: 0.15, max: 1.4, noNaN: true }),
        (facing, aside, elevation) => {
          const sight = facing - aside;
          const distance = 3_000 / Math.tan(elevation);
          const [east, north] = [distance * Math.sin(sight), distance * Math.cos(sight)];
          // Reading runs along facing + 90 degrees.
          const step = 0.1;
          const left = { eastMetres: east - step * Math.cos(facing), northMetres: north + step * Math.sin(facing), upMetres: 3_000 };
          const right = { eastMetres: east + step * Math.cos(facing), northMetres: north - step * Math.sin(facing), upMetres: 3_000 };
          const camera: Camera = { azimuthRadians: sight, elevationRadians: elevation, fieldRadians: 1, widthPixels: 1e6, heightPixels: 1e6 };
          const a = imageOf(seenFrom(left, EYE), camera);
          const b = imageOf(seenFrom(right, EYE), camera);
          if (a === null || b === null) throw new Error('out of the picture');
          const seen = Math.atan2(a.yPixels - b.yPixels, b.xPixels - a.xPixels);
          expect(Math.abs(signedRadians(seen - shownTurnRadians(sight, facing, elevation)))).toBeLessThan(1e-4);
        },
      ),
    );
  });

  test('from the front it is level, from behind it stands on its head', () => {
    expect(shownTurnRadians(1, 1, 0.5)).toBe(0);
    expect(Math.abs(shownTurnRadians(1 + Math.PI, 1, 0.5))).toBeCloseTo(Math.PI, 9);
    expect(degreesFromRadians(shownTurnRadians(0, radiansFromDegrees(10), radiansFromDegrees(35)))).toBeCloseTo(5.775, 3);
  });
});

describe('the picture', () => {
  test('looks where it looks, right is clockwise, up is up', () => {
    const middle = imageOf(CAMERA, CAMERA);
    expect(middle?.xPixels).toBeCloseTo(400, 9);
    expect(middle?.yPixels).toBeCloseTo(300, 9);
    expect(imageOf({ ...CAMERA, azimuthRadians: 0.4 }, CAMERA)?.xPixels).toBeGreaterThan(400);
    expect(imageOf({ ...CAMERA, elevationRadians: 0.7 }, CAMERA)?.yPixels).toBeLessThan(300);
  });

  test('its edge is half its field away', () => {
    const level: Camera = { ...CAMERA, elevationRadians: 0 };
    expect(imageOf({ azimuthRadians: 0.3 + 0.6, elevationRadians: 0 }, level)?.xPixels).toBeCloseTo(800, 9);
  });

  test('straight lines stay straight', () => {
    const at = (share: number) => imageOf(seenFrom({ eastMetres: -1_000 + 4_000 * share, northMetres: 3_000 + 2_000 * share, upMetres: 3_000 }, EYE), CAMERA);
    const [a, b, c] = [at(0), at(0.37), at(1)];
    if (a === null || b === null || c === null) throw new Error('out of the picture');
    const area = (b.xPixels - a.xPixels) * (c.yPixels - a.yPixels) - (c.xPixels - a.xPixels) * (b.yPixels - a.yPixels);
    expect(Math.abs(area)).toBeLessThan(1e-6);
  });

  test('what is behind has no place', () => {
    expect(imageOf({ azimuthRadians: 0.3 + Math.PI, elevationRadians: 0 }, CAMERA)).toBeNull();
    expect(() => imageOf(CAMERA, { ...CAMERA, fieldRadians: Math.PI })).toThrow(/fieldRadians/);
  });
});
