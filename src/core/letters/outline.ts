import type { Glyph } from './glyph.ts';
import { letterPathFromGlyph } from './glyph-path.ts';
import { letterPathLengthMetres, letterPoseAt } from './letter-path.ts';

/** A point of a drawing in letter heights. */
export interface OutlinePoint {
  readonly xHeights: number;
  readonly yHeights: number;
}

const STEP_HEIGHTS = 0.02;

/** Points along all strokes of some glyphs, at most 0.02 heights apart, ends included. */
export function outlinePoints(glyphs: readonly Glyph[]): OutlinePoint[] {
  const points: OutlinePoint[] = [];
  for (const glyph of glyphs) {
    for (const stroke of glyph.strokes) {
      const path = letterPathFromGlyph(stroke, 1, 0, 0);
      const lengthHeights = letterPathLengthMetres(path);
      const steps = Math.ceil(lengthHeights / STEP_HEIGHTS);
      for (let step = 0; step <= steps; step++) {
        const pose = letterPoseAt(path, (lengthHeights * step) / steps);
        points.push({ xHeights: pose.xMetres, yHeights: pose.yMetres });
      }
    }
  }
  return points;
}
