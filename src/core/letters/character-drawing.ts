import { beltStroke, type BeltSketch } from './belt.ts';
import type { Glyph } from './glyph.ts';

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

/** The glyphs of a drawing for a rounding radius; a style whose rounding does not fit is left out. */
export function drawnGlyphs(character: string, drawing: CharacterDrawing, roundingHeights: number): Glyph[] {
  return Object.entries(drawing.styles).flatMap(([style, draw]) => {
    const strokes = draw(roundingHeights).map(beltStroke);
    if (strokes.some((stroke) => stroke === null)) return [];
    return [{ character, style, widthHeights: drawing.widthHeights, strokes: strokes.filter((stroke) => stroke !== null) }];
  });
}
