import { describe, expect, it } from 'vitest';
import { brushStroke } from '../../../src/ui/drawing/brush-stroke.ts';

const line = Array.from({ length: 60 }, (_, index) => ({ xPixels: index * 4, upPixels: 100 }));

function corners(path: string): { x: number; y: number }[] {
  return [...path.matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => ({ x: Number(x), y: Number(y) }));
}

describe('a brush stroke', () => {
  it('keeps its middle on the planned line: both edges stand equally far from it', () => {
    const points = corners(brushStroke(line, 10, 3).outline);
    const left = points.slice(0, line.length);
    const right = points.slice(line.length + 5, 2 * line.length + 5).reverse();
    for (const [index, point] of left.entries()) {
      const opposite = right[index];
      expect(point.x).toBeCloseTo(index * 4, 1);
      expect(opposite?.x).toBeCloseTo(index * 4, 1);
      expect(((opposite?.y ?? Number.NaN) + point.y) / 2).toBeCloseTo(-100, 0);
    }
  });

  it('breathes by less than a sixth of its width and is round at both ends', () => {
    const points = corners(brushStroke(line, 10, 3).outline);
    for (const { y } of points) expect(Math.abs(y + 100)).toBeLessThan(5 * 1.17);
    expect(Math.min(...points.map(({ x }) => x))).toBeLessThan(-4);
    expect(Math.max(...points.map(({ x }) => x))).toBeGreaterThan(59 * 4 + 4);
  });

  it('is the same for the same seed and another for another', () => {
    expect(brushStroke(line, 10, 3)).toEqual(brushStroke(line, 10, 3));
    expect(brushStroke(line, 10, 3).outline).not.toBe(brushStroke(line, 10, 4).outline);
  });

  it('runs dry only when broad enough to show it', () => {
    expect(brushStroke(line, 10, 3).streaks).toHaveLength(3);
    expect(brushStroke(line, 4, 3).streaks).toHaveLength(0);
  });

  it('draws a single point as a dot', () => {
    expect(brushStroke(line.slice(0, 1), 10, 3).outline).toMatch(/^M.*Z$/);
    expect(brushStroke(line.slice(0, 1), 10, 3).outline).not.toContain('NaN');
  });
});
