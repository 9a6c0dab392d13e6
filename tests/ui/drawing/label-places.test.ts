import { describe, expect, it } from 'vitest';
import { labelPlaces } from '../../../src/ui/drawing/label-places.ts';

describe('label places', () => {
  it('keeps labels of strokes that start at one point apart', () => {
    const point = { xPixels: 50, upPixels: 50 };
    const places = labelPlaces(
      [0, 1, 2, 3].map((directionRadians) => ({ point, directionRadians })),
      8,
      [],
    );
    for (const [index, a] of places.entries()) {
      for (const b of places.slice(index + 1)) expect(Math.hypot(a.xPixels - b.xPixels, a.upPixels - b.upPixels)).toBeGreaterThanOrEqual(2.1 * 8);
    }
  });

  it('leaves the drawing uncovered where there is room', () => {
    const line = Array.from({ length: 40 }, (_, index) => ({ xPixels: index * 5, upPixels: 50 }));
    const [place] = labelPlaces([{ point: { xPixels: 0, upPixels: 50 }, directionRadians: 0 }], 8, line);
    for (const point of line) expect(Math.hypot(point.xPixels - (place?.xPixels ?? 0), point.upPixels - (place?.upPixels ?? 0))).toBeGreaterThan(8);
  });
});
