import type { Hand } from './hand.ts';

/**
 * A glyph is a drawing of one character in units of the letter's height: x from 0 at its left edge, y from 0 at
 * the baseline to 1 at the top, as the crowd reads it. Strokes are tangent-continuous lines and arcs; a corner
 * ends a stroke or is rounded.
 */
export interface GlyphSegment {
  readonly lengthHeights: number;
  /** Positive turning left (anticlockwise) as the crowd sees it. */
  readonly curvaturePerHeight: number;
}

export interface GlyphStroke {
  readonly start: { readonly xHeights: number; readonly yHeights: number; readonly directionRadians: number };
  readonly segments: readonly GlyphSegment[];
  /** True when the stroke ends where and as it began, so that it may be started anywhere. */
  readonly closed: boolean;
}

export interface Glyph {
  readonly character: string;
  /** Names this decomposition among the character's alternatives, as in `crisp`, `rounded`, `bar-joined`. */
  readonly style: string;
  /** The hands that draw the character so; empty for drawings kept for letters too small for the others. */
  readonly hands: readonly Hand[];
  /** All alternatives of a character share one width. */
  readonly widthHeights: number;
  readonly strokes: readonly GlyphStroke[];
}
