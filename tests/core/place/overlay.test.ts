import { fc } from '../../property.ts';
import { describe, expect, test } from 'vitest';
import { bearingDistance } from '../../../src/core/earth/bearing-distance.ts';
import { areasTouched } from '../../../src/core/place/overlay-contact.ts';
import { LONGEST_OVERLAY_CHARACTERS, type Overlay, parseOverlay, parseOverlayText } from '../../../src/core/place/overlay.ts';
import { processorMilliseconds } from '../../processor-time.ts';

type Ring = [number, number][];

const box = (west: number, south: number, east: number, north: number): Ring => [
  [west, south],
  [east, south],
  [east, north],
  [west, north],
  [west, south],
];
const feature = (geometry: unknown, properties: unknown = null) => ({ type: 'Feature', geometry, properties });
const polygon = (rings: Ring[], properties: unknown = null) => feature({ type: 'Polygon', coordinates: rings }, properties);
const collection = (...features: unknown[]) => ({ type: 'FeatureCollection', features });

function overlayOf(value: unknown): Overlay {
  const found = parseOverlay(value);
  if (!found.ok) throw new Error(found.reason);
  return found.overlay;
}

const at = (longitudeDegrees: number, latitudeDegrees: number) => ({ longitudeDegrees, latitudeDegrees });

describe('reading an overlay (RFC 7946)', () => {
  test('areas, landmarks and lines, with their properties', () => {
    const overlay = overlayOf(
      collection(
        polygon([box(10, 45, 11, 46)], { name: 'Airfield', floorFeet: 0, ceilingFeet: 4_000, colour: 'red' }),
        polygon([box(10, 45, 11, 46)], { name: 'Lake', kind: 'area' }),
        feature({ type: 'Point', coordinates: [10.5, 45.5, 300] }, { name: 'Tower' }),
        feature({
          type: 'LineString',
          coordinates: [
            [10, 45],
            [11, 46],
          ],
        }),
        feature({ type: 'MultiPolygon', coordinates: [[box(1, 1, 2, 2)], [box(3, 3, 4, 4)]] }, { name: 7 }),
        feature(null),
      ),
    );
    expect(overlay.areas.map(({ name, noGo, floorFeet, ceilingFeet }) => [name, noGo, floorFeet, ceilingFeet])).toEqual([
      ['Airfield', true, 0, 4_000],
      ['Lake', false, null, null],
      ['', true, null, null],
    ]);
    expect(overlay.areas[2]?.polygons).toHaveLength(2);
    expect(overlay.landmarks).toEqual([{ name: 'Tower', topFeet: null, longitudeDegrees: 10.5, latitudeDegrees: 45.5 }]);
    expect([...(overlay.lines[0]?.points ?? [])]).toEqual([10, 45, 11, 46]);
    expect(overlayOf(polygon([box(0, 0, 1, 1)])).areas).toHaveLength(1);
  });

  test.each([
    ['{"type":', /cut off or damaged/],
    ['null', /neither GeoJSON nor KML/],
    ['{"type":"Topology"}', /not a GeoJSON/],
    ['{"type":"FeatureCollection","features":{}}', /features/],
    ['{"type":"FeatureCollection","features":[5]}', /^feature 1/],
    [
      JSON.stringify(
        collection(
          polygon([
            [
              [0, 0],
              [1, 0],
              [1, 1],
            ],
          ]),
        ),
      ),
      /under four/,
    ],
    [
      JSON.stringify(
        collection(
          polygon([
            [
              [0, 0],
              [1, 0],
              [1, 1],
              [0, 1],
            ],
          ]),
        ),
      ),
      /does not end where it begins/,
    ],
    [
      JSON.stringify(
        collection(
          polygon([
            [
              [0, 91],
              [1, 0],
              [1, 1],
              [0, 91],
            ],
          ]),
        ),
      ),
      /point 1 is not a longitude and a latitude/,
    ],
    [JSON.stringify(collection(feature({ type: 'Point', coordinates: ['a', 1] }))), /point 1/],
    [JSON.stringify(collection(feature({ type: 'Point', coordinates: [1e6, 1] }))), /longitude of 1000000/],
    [JSON.stringify(collection(feature({ type: 'GeometryCollection', geometries: [] }))), /GeometryCollection/],
    [JSON.stringify(collection(polygon([box(0, 0, 1, 1)], { floorFeet: 'low' }))), /floorFeet/],
    [JSON.stringify(collection(feature({ type: 'Polygon', coordinates: 3 }))), /not a list/],
  ])('case %#: %s', (text, reason) => {
    expect(parseOverlayText(text)).toEqual({ ok: false, reason: expect.stringMatching(reason) });
  });

  test('never throws, whatever it is given', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => typeof parseOverlay(collection(feature({ type: 'Polygon', coordinates: value }), value)).ok === 'boolean'),
    );
    fc.assert(fc.property(fc.anything(), (value) => typeof parseOverlay(value).ok === 'boolean'));
  });

  test('a file over 20 MB is refused without being read', () => {
    const began = processorMilliseconds();
    const found = parseOverlayText(' '.repeat(LONGEST_OVERLAY_CHARACTERS + 1));
    expect(found).toEqual({ ok: false, reason: expect.stringMatching(/20\.0 MB; at most 20 MB/) });
    expect(processorMilliseconds() - began).toBeLessThan(200);
  });

  test('a file of just under 20 MB is read and searched in bounded time', () => {
    // 170 vertices a ring, 13 characters and more each.
    const ring: Ring = Array.from({ length: 400 }, (_, index) => [
      10 + 0.01 * Math.cos((index * Math.PI) / 200),
      45 + 0.01 * Math.sin((index * Math.PI) / 200),
    ]);
    ring[399] = ring[0] ?? [0, 0];
    const one = JSON.stringify(polygon([ring]));
    const count = Math.floor((LONGEST_OVERLAY_CHARACTERS - 100) / (one.length + 1));
    const text = `{"type":"FeatureCollection","features":[${Array.from({ length: count }, () => one).join(',')}]}`;
    expect(text.length).toBeGreaterThan(19.9e6);
    const began = processorMilliseconds();
    const found = parseOverlayText(text);
    if (!found.ok) throw new Error(found.reason);
    expect(found.overlay.areas).toHaveLength(count);
    expect(areasTouched(found.overlay, [at(10, 45), at(10.1, 45.1), at(10, 45.1)], true, 0, 10_000, 1_000)).toHaveLength(count);
    // About 2 s here; the bound is for slower machines with others at work on them.
    expect(processorMilliseconds() - began).toBeLessThan(15_000);
  }, 30_000);

  test('more points or features than are read are refused by number', () => {
    const many = collection(...Array.from({ length: 20_001 }, () => feature(null)));
    expect(parseOverlay(many)).toEqual({ ok: false, reason: expect.stringMatching(/20000 features/) });
    const long = Array.from({ length: 1_000_001 }, () => [0, 0]);
    expect(parseOverlay(collection(feature({ type: 'LineString', coordinates: long })))).toEqual({
      ok: false,
      reason: expect.stringMatching(/1000000 points/),
    });
  });
});

describe('areas touched', () => {
  const overlay = overlayOf(collection(polygon([box(10, 45, 11, 46), box(10.4, 45.4, 10.6, 45.6)], { name: 'Ring', floorFeet: 2_000, ceilingFeet: 12_000 })));
  const touched = (points: ReturnType<typeof at>[], closed = false, low = 10_000, high = 10_000, within = 0) =>
    areasTouched(overlay, points, closed, low, high, within);

  test('a point inside, in the hole, outside', () => {
    expect(touched([at(10.2, 45.2)])[0]).toMatchObject({ inside: true, distanceMetres: 0 });
    expect(touched([at(10.5, 45.5)])).toEqual([]);
    expect(touched([at(12, 45.5)])).toEqual([]);
  });

  test('a path through it with both ends outside, a polygon round all of it', () => {
    expect(touched([at(9, 45.2), at(12, 45.2)])).toHaveLength(1);
    expect(touched([at(9, 44.9), at(12, 44.9)])).toEqual([]);
    expect(touched([at(9, 44), at(12, 44), at(12, 47), at(9, 47)], true)).toHaveLength(1);
    expect(touched([at(9, 44), at(12, 44), at(12, 47), at(9, 47)], false, 10_000, 10_000)).toEqual([]);
  });

  test('only at its heights', () => {
    expect(touched([at(10.2, 45.2)], false, 12_001, 13_000)).toEqual([]);
    expect(touched([at(10.2, 45.2)], false, 0, 1_999)).toEqual([]);
    expect(touched([at(10.2, 45.2)], false, 11_000, 13_000)).toHaveLength(1);
  });

  test('near it, with the distance, nearest first', () => {
    const near = touched([at(9.9, 45.5)], false, 5_000, 5_000, 20_000)[0];
    const truth = bearingDistance(at(9.9, 45.5), at(10, 45.5)).distanceMetres;
    expect(near?.inside).toBe(false);
    expect(Math.abs((near?.distanceMetres ?? NaN) / truth - 1)).toBeLessThan(0.005);
    expect(touched([at(9.9, 45.5)], false, 5_000, 5_000, 7_000)).toEqual([]);
  });

  test('an area to look at only is not a no-go area', () => {
    const look = overlayOf(polygon([box(10, 45, 11, 46)], { kind: 'area' }));
    expect(areasTouched(look, [at(10.2, 45.2)], false, 0, 1, 0)).toEqual([]);
    expect(() => areasTouched(look, [], false, 0, 1, 0)).toThrow(RangeError);
  });
});

describe('the antimeridian', () => {
  // Cut in two, as RFC 7946, 3.1.9 wants it; and the same in one piece, as it is often met.
  const cut = overlayOf(feature({ type: 'MultiPolygon', coordinates: [[box(179, -19, 180, -18)], [box(-180, -19, -179, -18)]] }));
  const whole = overlayOf(
    polygon([
      [
        [179, -19],
        [-179, -19],
        [-179, -18],
        [179, -18],
        [179, -19],
      ],
    ]),
  );
  const over = overlayOf(polygon([box(179, -19, 181, -18)]));

  test.each([
    ['cut', cut],
    ['in one piece', whole],
    ['beyond 180', over],
  ])('an area across it, %s', (_, overlay) => {
    for (const longitude of [179.5, 179.999, -179.999, -179.5]) {
      expect(areasTouched(overlay, [at(longitude, -18.5)], false, 0, 1, 0)).toHaveLength(1);
    }
    for (const longitude of [178.5, -178.5, 0]) expect(areasTouched(overlay, [at(longitude, -18.5)], false, 0, 1, 0)).toEqual([]);
    expect(areasTouched(overlay, [at(178, -18.5), at(-178, -18.5)], false, 0, 1, 0)).toHaveLength(1);
    expect(areasTouched(overlay, [at(-178, -18.5), at(178, -18.5)], false, 0, 1, 0)).toHaveLength(1);
    expect(areasTouched(overlay, [at(178, -17), at(-178, -17)], false, 0, 1, 0)).toEqual([]);
  });

  test('an area round the whole earth', () => {
    const belt = overlayOf(polygon([box(-180, -10, 180, 10)]));
    for (const longitude of [-179.9, -90, 0, 90, 179.9]) expect(areasTouched(belt, [at(longitude, 5)], false, 0, 1, 0)).toHaveLength(1);
  });

  test('moving everything along the parallels changes nothing', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -360, max: 360, noNaN: true }),
        fc.double({ min: -3, max: 3, noNaN: true }),
        fc.double({ min: -3, max: 3, noNaN: true }),
        (shift, x, y) => {
          fc.pre(Math.abs(Math.abs(x) - 1) > 1e-6 && Math.abs(Math.abs(y) - 1) > 1e-6);
          const wrap = (degrees: number): number => ((((degrees + 180) % 360) + 360) % 360) - 180;
          const moved = overlayOf(polygon([box(-1, -1, 1, 1).map(([east, north]): [number, number] => [wrap(east + shift), north])]));
          const inside = areasTouched(moved, [at(wrap(x + shift), y)], false, 0, 1, 0).length === 1;
          expect(inside).toBe(Math.abs(x) < 1 && Math.abs(y) < 1);
        },
      ),
    );
  });
});
