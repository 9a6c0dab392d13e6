import type { GlyphStroke } from './glyph.ts';
import type { LetterPath } from './letter-path.ts';

/**
 * A glyph's stroke at its size and place: the left end of its baseline goes to `xMetres`, `yMetres`. A stroke of
 * one line of length 1 at 1,200 m becomes one line of 1,200 m.
 */
export function letterPathFromGlyph(stroke: GlyphStroke, heightMetres: number, xMetres: number, yMetres: number): LetterPath {
  return {
    start: {
      xMetres: xMetres + stroke.start.xHeights * heightMetres,
      yMetres: yMetres + stroke.start.yHeights * heightMetres,
      directionRadians: stroke.start.directionRadians,
    },
    segments: stroke.segments.map(({ lengthHeights, curvaturePerHeight }) => ({
      lengthMetres: lengthHeights * heightMetres,
      curvaturePerMetre: curvaturePerHeight / heightMetres,
    })),
  };
}
