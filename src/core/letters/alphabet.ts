import { composedDrawing } from './alphabet-accents.ts';
import { CAPITALS } from './alphabet-capitals.ts';
import { DIGITS } from './alphabet-digits.ts';
import { SIGNS } from './alphabet-signs.ts';
import { drawnGlyphs, type DrawingTable, TIGHTEST_RADIUS_HEIGHTS } from './character-drawing.ts';
import type { Glyph } from './glyph.ts';

const TABLES: readonly DrawingTable[] = [CAPITALS, DIGITS, SIGNS];

/**
 * The drawings of a character, `crisp` first; small letters are drawn as capitals. Empty when there is none.
 *
 * Rounded corners take the ship's turn radius but never less than 0.25 heights, and styles whose corners cannot be
 * rounded so widely are left out. The letters' own curves grow with it, up to a third of the height; see `grown-curves.ts`.
 *
 * @param turnRadiusHeights the writing turn radius over the letter's height, above 0; throws RangeError otherwise
 * @param depthStretch depth over height, at least 1: y then runs to this; throws RangeError otherwise
 */
export function glyphAlternatives(character: string, turnRadiusHeights: number, depthStretch = 1): readonly Glyph[] {
  if (!(turnRadiusHeights > 0 && Number.isFinite(turnRadiusHeights))) throw new RangeError(`turnRadiusHeights ${turnRadiusHeights}`);
  const roundingHeights = Math.max(TIGHTEST_RADIUS_HEIGHTS, turnRadiusHeights);
  const capital = character.normalize('NFC').toUpperCase();
  const drawing = TABLES.find((table) => Object.hasOwn(table, capital))?.[capital] ?? composedDrawing(capital, TABLES);
  return drawing === null ? [] : drawnGlyphs(capital, drawing, roundingHeights, depthStretch);
}
