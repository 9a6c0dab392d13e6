import { glyphAlternatives } from './alphabet.ts';
import { charactersOf, drawableText } from './drawable-text.ts';
import { type DrawnCharacter, drawnCharacter } from './drawn-character.ts';
import { WIDEST_OWN_CURVE_HEIGHTS } from './grown-curves.ts';
import type { Hand } from './hand.ts';
import { letterPathFromGlyph } from './glyph-path.ts';
import type { LetterPath } from './letter-path.ts';
import { nearestCharacter } from './nearest-character.ts';
import { drawnPiece, joinedPieces } from './script-glyph.ts';
import { lineHeights, placedLine } from './text-lines.ts';

/** A stroke in its place; a closed one ends where and as it began and may be started anywhere. */
export interface LetterStroke {
  readonly path: LetterPath;
  readonly closed: boolean;
}

/** A letter in its place, with every way it may be written. */
export interface LaidOutLetter {
  /** 0-based in reading order; spaces do not count. */
  readonly letterIndex: number;
  /** As drawn: a capital for a small letter; in the joined hand small letters, those that are joined together. */
  readonly character: string;
  /** 0 is the upper line. */
  readonly line: number;
  /** Where the letter's strokes begin and end along the line, over all alternatives. */
  readonly leftMetres: number;
  readonly rightMetres: number;
  readonly widthMetres: number;
  readonly alternatives: readonly { readonly style: string; readonly strokes: readonly LetterStroke[] }[];
}

/** A text laid out in the letter frame, its middle at the origin. */
export interface TextLayout {
  readonly letters: readonly LaidOutLetter[];
  readonly lineCount: number;
  /** From the first stroke to the last along the longest line. */
  readonly widthMetres: number;
  /** From the lowest stroke to the highest, accents and tails included. */
  readonly depthMetres: number;
  /** How small the text could be written, and which character sets it; 0 and null when it has no curves. */
  readonly flyable: { readonly smallestHeightMetres: number; readonly limitingCharacter: string | null };
}

export interface TypesetOptions {
  readonly heightMetres: number;
  /** Gap between two stems; 0.3, which reads best, by default. Kept between 0.15 and 0.7 for every pair. */
  readonly spacingHeights?: number;
  /** The radius the ship writes with. */
  readonly turnRadiusMetres: number;
  /** Depth over height, 1 to 2; 1 by default. */
  readonly depthStretch?: number;
  /** Whose drawings are offered; every one that reads, as `quickest`, by default. */
  readonly hand?: Hand;
}

/** The layout, or why there is none, in words that say what to change. */
export type Typesetting = { readonly ok: true; readonly layout: TextLayout } | { readonly ok: false; readonly reason: string; readonly character?: string };

/** Longer texts outlast their own smoke; a line of 40 letters is 50 km long. */
const LONGEST_CHARACTERS = 40;
/**
 * Lays out a text of one line, or two separated by a line break, in the letter frame. Small letters are drawn as
 * capitals. A letter's alternatives stand in the same place. Rounded corners take the ship's turn radius; when a
 * letter's own curves are tighter still, it is laid out all the same, and `flyable` says which height would do.
 *
 * `HI` at 1,200 m is 0.7 + 0.3 heights wide: 1,200 m.
 */
export function typeset(text: string, options: TypesetOptions): Typesetting {
  const { heightMetres, spacingHeights = 0.3, turnRadiusMetres, depthStretch = 1, hand = 'quickest' } = options;
  const unusable = unusableOption(heightMetres, spacingHeights, turnRadiusMetres, depthStretch);
  if (unusable !== null) return { ok: false, reason: unusable };
  const lines = drawableText(text)
    .split('\n')
    .map((line) => line.trim().replace(/\s+/g, ' '))
    .filter((line) => line !== '');
  if (lines.length === 0) return { ok: false, reason: 'There is no text to write. Type a word.' };
  if (lines.length > 2) return { ok: false, reason: `The text has ${lines.length} lines; at most two can be written.` };
  const count = lines.flatMap(charactersOf).length;
  if (count > LONGEST_CHARACTERS) {
    return { ok: false, reason: `The text has ${count} characters; at most ${LONGEST_CHARACTERS} can be written. Shorten it.` };
  }

  const drawn = new Map<string, DrawnCharacter>();
  const pieces = lines.map(hand === 'joined' ? joinedPieces : charactersOf);
  const how = { turnRadiusMetres, heightMetres, depthStretch, hand };
  for (const character of pieces.flat()) {
    if (character === ' ' || drawn.has(character)) continue;
    const piece = hand === 'joined' ? drawnPiece(character, how) : null;
    if (piece !== null) {
      drawn.set(character, piece);
      continue;
    }
    const glyphs = glyphAlternatives(character, turnRadiusMetres / heightMetres, depthStretch);
    if (glyphs.length === 0) {
      const nearest = nearestCharacter(character, (each) => glyphAlternatives(each, turnRadiusMetres / heightMetres, depthStretch).length > 0);
      const instead = nearest === null ? 'Leave it out or write it otherwise.' : `The nearest that has one is “${nearest}”.`;
      return { ok: false, reason: `There is no drawing for “${character}”. ${instead}`, character };
    }
    const widest = glyphAlternatives(character, WIDEST_OWN_CURVE_HEIGHTS, depthStretch);
    drawn.set(character, drawnCharacter(glyphs, widest, hand === 'joined' ? { ...how, hand: 'round-capitals' } : how));
  }

  const { baselinesHeights, depthHeights } = lineHeights(pieces, drawn, depthStretch);
  const letters: LaidOutLetter[] = [];
  let widestHeights = 0;
  pieces.forEach((line, lineIndex) => {
    const placed = placedLine(line, drawn, spacingHeights);
    const leftHeights = Math.min(...placed.map(({ xHeights, drawing }) => xHeights + drawing.leftHeights));
    const rightHeights = Math.max(...placed.map(({ xHeights, drawing }) => xHeights + drawing.rightHeights));
    widestHeights = Math.max(widestHeights, rightHeights - leftHeights);
    const yMetres = (baselinesHeights[lineIndex] ?? 0) * heightMetres;
    for (const { character, drawing, xHeights } of placed) {
      const xMetres = (xHeights - (leftHeights + rightHeights) / 2) * heightMetres;
      letters.push({
        letterIndex: letters.length,
        character: drawing.glyphs[0]?.character ?? character,
        line: lineIndex,
        leftMetres: xMetres + drawing.leftHeights * heightMetres,
        rightMetres: xMetres + drawing.rightHeights * heightMetres,
        widthMetres: (drawing.rightHeights - drawing.leftHeights) * heightMetres,
        alternatives: drawing.glyphs.map(({ style, strokes }) => ({
          style,
          strokes: strokes.map((stroke) => ({ path: letterPathFromGlyph(stroke, heightMetres, xMetres, yMetres), closed: stroke.closed })),
        })),
      });
    }
  });
  return {
    ok: true,
    layout: {
      letters,
      lineCount: lines.length,
      widthMetres: widestHeights * heightMetres,
      depthMetres: depthHeights * heightMetres,
      flyable: flyableFrom(drawn),
    },
  };
}

function unusableOption(heightMetres: number, spacingHeights: number, turnRadiusMetres: number, depthStretch: number): string | null {
  if (!(heightMetres > 0 && Number.isFinite(heightMetres))) return 'The letters need a height above zero.';
  if (!(turnRadiusMetres > 0 && Number.isFinite(turnRadiusMetres))) {
    return 'The ship does not turn: the bank must be above 0 and under 90 degrees, and the speed above zero.';
  }
  if (!(spacingHeights >= 0 && Number.isFinite(spacingHeights))) return 'The gap between letters must be a number of letter heights, 0.15 to 0.7.';
  if (!(depthStretch >= 1 && depthStretch <= 2)) return 'Letters can be drawn from 1 to 2 times as deep as high.';
  return null;
}

function flyableFrom(drawn: ReadonlyMap<string, DrawnCharacter>): TextLayout['flyable'] {
  let smallestHeightMetres = 0;
  let limitingCharacter: string | null = null;
  for (const [character, drawing] of drawn) {
    if (drawing.smallestHeightMetres <= smallestHeightMetres) continue;
    smallestHeightMetres = drawing.smallestHeightMetres;
    limitingCharacter = character;
  }
  return { smallestHeightMetres, limitingCharacter };
}
