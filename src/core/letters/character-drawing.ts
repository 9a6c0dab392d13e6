import { beltStroke, type BeltSketch } from './belt.ts';
import { stretchedBelt } from './depth-stretch.ts';
import type { Glyph, GlyphStroke } from './glyph.ts';

/**
 * How a character is drawn: its width and its styles, the one to fall back on first. A style is a function of the
 * radius its rounded corners take; curves that belong to the letter keep their own radius.
 */
export interface CharacterDrawing {
  readonly widthHeights: number;
  readonly styles: Readonly<Record<string, (roundingHeights: number) => readonly BeltSketch[]>>;
}

/** A table of drawings by character. */
export type DrawingTable = Readonly<Record<string, CharacterDrawing>>;

/**
 * The glyphs of a drawing for a rounding radius; a style whose rounding does not fit is left out.
 *
 * @param depthStretch depth over height, at least 1; see {@link stretchedBelt}
 */
export function drawnGlyphs(character: string, drawing: CharacterDrawing, roundingHeights: number, depthStretch: number): Glyph[] {
  return Object.entries(drawing.styles).flatMap(([style, draw]) => {
    const strokes: GlyphStroke[] = [];
    for (const sketch of draw(roundingHeights)) {
      const stretched = depthStretch === 1 ? sketch : stretchedBelt(sketch, depthStretch);
      const stroke = stretched === null ? null : beltStroke(stretched);
      if (stroke === null) return [];
      strokes.push(stroke);
    }
    return [{ character, style, widthHeights: drawing.widthHeights, strokes }];
  });
}
