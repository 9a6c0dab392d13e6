import { TIGHTEST_RADIUS_HEIGHTS } from './character-drawing.ts';
import { stretchedStroke } from './depth-stretch.ts';
import { charactersOf } from './drawable-text.ts';
import { type DrawnCharacter, drawnCharacter, type DrawnCharacterOptions } from './drawn-character.ts';
import type { Glyph } from './glyph.ts';
import { WIDEST_OWN_CURVE_HEIGHTS } from './grown-curves.ts';
import { scriptAlphabet } from './script-letters.ts';
import { scriptPiece, scriptPieces } from './script-piece.ts';

/**
 * A line of capitals as the joined hand writes it: each word's first letter stays a capital, those that follow are small
 * and joined where the smoke stays on; what the hand has no small letter for stays as it is.
 *
 * `ANNA` is `A`, `n`, `na`.
 */
export function joinedPieces(line: string): string[] {
  const letterOf = scriptAlphabet(TIGHTEST_RADIUS_HEIGHTS);
  const smaller = charactersOf(line).map((character, index, all) => {
    const small = character.toLowerCase();
    const first = index === 0 || all[index - 1] === ' ';
    return first || letterOf(small) === null ? character : small;
  });
  return scriptPieces(smaller, letterOf);
}

/** A piece of the joined hand ready to be placed; null where it is none. */
export function drawnPiece(piece: string, options: DrawnCharacterOptions): DrawnCharacter | null {
  const glyph = pieceGlyph(piece, options.turnRadiusMetres / options.heightMetres, options.depthStretch);
  const widest = pieceGlyph(piece, WIDEST_OWN_CURVE_HEIGHTS, options.depthStretch);
  if (glyph === null || widest === null) return null;
  return { ...drawnCharacter([glyph.glyph], [widest.glyph], options), advanceHeights: glyph.advanceHeights };
}

function pieceGlyph(piece: string, radiusHeights: number, depthStretch: number): { readonly glyph: Glyph; readonly advanceHeights: number } | null {
  const radius = Math.min(WIDEST_OWN_CURVE_HEIGHTS, Math.max(TIGHTEST_RADIUS_HEIGHTS, radiusHeights));
  const drawn = scriptPiece(piece, scriptAlphabet(radius));
  if (drawn === null) return null;
  const strokes = drawn.sketches.map((sketch) => stretchedStroke(sketch, depthStretch));
  if (!strokes.every((stroke) => stroke !== null)) return null;
  return {
    glyph: { character: piece, style: 'joined', hands: ['joined'], widthHeights: drawn.advanceHeights, strokes },
    advanceHeights: drawn.advanceHeights,
  };
}
