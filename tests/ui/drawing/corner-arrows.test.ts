import { describe, expect, it } from 'vitest';
import { arrowInset, cornerBoxes, reachesCorner } from '../../../src/ui/drawing/corner-arrows.ts';

const SIZE = { widthPixels: 500, heightPixels: 170 };

describe('arrows in the corners of a picture', () => {
  it('see a stroke that begins under the wind, or so near that its number would stand there', () => {
    const boxes = cornerBoxes(SIZE, '076\u00b0T / 12 kt');
    expect(reachesCorner([{ xPixels: 80, upPixels: 130 }], boxes)).toBe(true);
    expect(reachesCorner([{ xPixels: 80, upPixels: 95 }], boxes)).toBe(true);
    expect(reachesCorner([{ xPixels: 80, upPixels: 60 }], boxes)).toBe(false);
    expect(reachesCorner([{ xPixels: 250, upPixels: 160 }], boxes)).toBe(false);
  });

  it('leave the corner of a wind that nobody knows to the drawing', () => {
    expect(reachesCorner([{ xPixels: 80, upPixels: 130 }], cornerBoxes(SIZE, null))).toBe(false);
    expect(reachesCorner([{ xPixels: 480, upPixels: 130 }], cornerBoxes(SIZE, null))).toBe(true);
  });

  it('stand far enough in for their word', () => {
    expect(arrowInset('N')).toBe(24);
    expect(arrowInset('076\u00b0T / 112 kt')).toBeGreaterThan(55);
  });
});
