import { smallestHeight } from './flyable-height.ts';
import type { Glyph } from './glyph.ts';
import { type LetterEdge, letterEdge } from './letter-spacing.ts';
import { outlinePoints } from './outline.ts';

/** What a character is drawn for. */
interface DrawnCharacterOptions {
  readonly turnRadiusMetres: number;
  readonly depthStretch: number;
  readonly corners: 'crisp' | 'rounded' | 'best';
}

/** A character's offered glyphs and what placing them needs. */
export interface DrawnCharacter {
  readonly glyphs: readonly Glyph[];
  readonly rightEdge: LetterEdge;
  readonly leftEdge: LetterEdge;
  readonly leftHeights: number;
  readonly rightHeights: number;
  readonly bottomHeights: number;
  readonly topHeights: number;
  readonly smallestHeightMetres: number;
}

/**
 * A character's glyphs made ready to be placed.
 *
 * @param corners which of them are offered; all when none is of the wanted kind
 */
export function drawnCharacter(glyphs: readonly Glyph[], options: DrawnCharacterOptions): DrawnCharacter {
  const { corners, turnRadiusMetres, depthStretch } = options;
  const wanted = glyphs.filter(({ style }) => corners === 'best' || (style === 'crisp') === (corners === 'crisp'));
  const outline = outlinePoints(glyphs);
  const rightEdge = letterEdge(outline, 1, depthStretch);
  const leftEdge = letterEdge(outline, -1, depthStretch);
  return {
    glyphs: wanted.length > 0 ? wanted : glyphs,
    rightEdge,
    leftEdge,
    leftHeights: leftEdge.outermostHeights,
    rightHeights: rightEdge.outermostHeights,
    bottomHeights: Math.min(...outline.map(({ yHeights }) => yHeights)),
    topHeights: Math.max(...outline.map(({ yHeights }) => yHeights)),
    // Corners can always be left crisp, so the letter's own curves set its smallest height.
    smallestHeightMetres: Math.min(...glyphs.filter(({ style }) => style === 'crisp').map((glyph) => smallestHeight(glyph, turnRadiusMetres).heightMetres)),
  };
}
