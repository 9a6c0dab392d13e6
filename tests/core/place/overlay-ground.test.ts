import { fc } from '../../property.ts';
import { describe, expect, test } from 'vitest';
import { type Site, siteFromGeodetic } from '../../../src/core/earth/site-frame.ts';
import { type Overlay, parseOverlay } from '../../../src/core/place/overlay.ts';
import { overlayOnGround } from '../../../src/core/place/overlay-ground.ts';

const SITE: Site = { latitudeDegrees: 44, longitudeDegrees: 10, elevationMetres: 200 };

function overlay(geometries: readonly object[]): Overlay {
  const read = parseOverlay({
    type: 'FeatureCollection',
    features: geometries.map((geometry, index) => ({ type: 'Feature', properties: { name: `n${index}` }, geometry })),
  });
  if (!read.ok) throw new Error(read.reason);
  return read.overlay;
}

const square = (x: number, y: number, half: number) => ({
  type: 'Polygon',
  coordinates: [
    [
      [x - half, y - half],
      [x + half, y - half],
      [x + half, y + half],
      [x - half, y + half],
      [x - half, y - half],
    ],
  ],
});
/** Twice the area, signed, by the shoelace formula. */
const area = (ring: readonly { readonly eastMetres: number; readonly northMetres: number }[]): number =>
  ring.reduce((sum, a, index) => {
    const b = ring[(index + 1) % ring.length]!;
    return sum + a.eastMetres * b.northMetres - b.eastMetres * a.northMetres;
  }, 0);

describe('an overlay on the ground', () => {
  test('an area wholly inside keeps its corners, where the site frame has them', () => {
    const { areas } = overlayOnGround(overlay([square(10.02, 44.01, 0.01)]), SITE, 20_000, 0);
    expect(areas).toHaveLength(1);
    const corner = siteFromGeodetic({ latitudeDegrees: 44, longitudeDegrees: 10.01 }, 200, SITE);
    expect(areas[0]!.rings[0]!.some(({ eastMetres, northMetres }) => Math.hypot(eastMetres - corner.eastMetres, northMetres - corner.northMetres) < 0.01)).toBe(
      true,
    );
  });

  test('an area round the whole map fills it, one far away is not there', () => {
    const { areas } = overlayOnGround(overlay([square(10, 44, 30), square(12, 44, 0.5)]), SITE, 20_000, 0);
    expect(areas.map(({ name }) => name)).toEqual(['n0']);
    // A square of 40 km: twice its area, to the bend of the meridians.
    expect(Math.abs(area(areas[0]!.rings[0]!)) / 2 / 40_000 ** 2).toBeCloseTo(1, 1);
  });

  test('a square over the eastern edge is cut there', () => {
    const half = 20_000 / (111_195 * Math.cos((44 * Math.PI) / 180));
    const { areas } = overlayOnGround(overlay([square(10 + half, 44, 0.05)]), SITE, 20_000, 0);
    const east = areas[0]!.rings[0]!.map(({ eastMetres }) => eastMetres);
    expect(Math.max(...east)).toBeLessThan(20_200);
    expect(Math.min(...east)).toBeLessThan(20_000 - 3_000);
  });

  test('across the antimeridian, written either way round', () => {
    const site = { ...SITE, longitudeDegrees: 179.99 };
    const across = {
      type: 'Polygon',
      coordinates: [
        [
          [179.95, 43.95],
          [-179.95, 43.95],
          [-179.95, 44.05],
          [179.95, 44.05],
          [179.95, 43.95],
        ],
      ],
    };
    const beyond = {
      type: 'Polygon',
      coordinates: [
        [
          [179.95, 43.95],
          [180.05, 43.95],
          [180.05, 44.05],
          [179.95, 44.05],
          [179.95, 43.95],
        ],
      ],
    };
    const [one, other] = [across, beyond].map((shape) =>
      overlayOnGround(overlay([shape]), site, 20_000, 0).areas[0]!.rings.map((ring) => Math.abs(area(ring))),
    );
    expect(one).toHaveLength(1);
    expect(one![0]).toBeCloseTo(other![0]!, 0);
    expect(one![0]! / 2 / (0.1 * 111_195 * 0.1 * 111_195 * Math.cos((44 * Math.PI) / 180))).toBeCloseTo(1, 1);
  });

  test('landmarks within, and none without', () => {
    const { landmarks } = overlayOnGround(
      overlay([
        { type: 'Point', coordinates: [10.1, 44.1] },
        { type: 'Point', coordinates: [11, 44] },
      ]),
      SITE,
      20_000,
      0,
    );
    expect(landmarks.map(({ landmark }) => landmark.name)).toEqual(['n0']);
  });

  test('whatever the ring, nothing reaches beyond the square', () => {
    const degrees = (middle: number) => fc.double({ min: middle - 2, max: middle + 2, noNaN: true });
    fc.assert(
      fc.property(fc.array(fc.tuple(degrees(10), degrees(44)), { minLength: 3, maxLength: 12 }), (points) => {
        const ring = [...points, points[0]!];
        const { areas } = overlayOnGround(overlay([{ type: 'Polygon', coordinates: [ring] }]), SITE, 30_000, 50);
        for (const { rings } of areas)
          for (const point of rings.flat()) expect(Math.max(Math.abs(point.eastMetres), Math.abs(point.northMetres))).toBeLessThan(30_400);
      }),
      { numRuns: 60 },
    );
  });

  test('refuses a square it cannot draw', () => {
    expect(() => overlayOnGround(overlay([]), SITE, 0, 0)).toThrow(RangeError);
    expect(() => overlayOnGround(overlay([]), SITE, 600_000, 0)).toThrow(RangeError);
  });
});
