import { glyphAlternatives } from '../../../src/core/letters/alphabet.ts';
import type { Hand } from '../../../src/core/letters/hand.ts';
import type { LetterPath } from '../../../src/core/letters/letter-path.ts';
import { typeset } from '../../../src/core/letters/typeset.ts';
import { drawPolylines } from '../../flight/draw-strokes.ts';
import type { TextReader } from '../../flight/read-text.ts';
import { NUMBERS, SIGNED_TEXTS, WORDS } from './reading-texts.ts';
import { wobbledSmoke } from './wobbled-smoke.ts';

/** The client's common case: 120 mph at 45 degrees of bank turn on 293 m; letters of 1,200 m. */
const HEIGHT_METRES = 1200;
const TURN_RADIUS_METRES = 293;

/** Capitals, digits and the signs the engine knows; heart, arrow and star are no letters to it. */
export const READABLE = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789!?.,'-&+#";

/** How often one drawing of a character was read right, in words from below. */
export interface GlyphReading {
  readonly character: string;
  readonly style: string;
  readonly shown: number;
  readonly read: number;
  /** `text>what was read`, for each miss. */
  readonly misread: readonly string[];
}

export interface ReadingOptions {
  /** At most so many texts for each drawing. */
  readonly textsPerGlyph: number;
  readonly strokeWidthsHeights: readonly number[];
  readonly wobbleMetres: number;
  readonly hand: Hand;
  readonly characters?: string;
}

/**
 * Shows every drawing of a hand's every character in texts that contain it, and asks the reader.
 * The whole matrix (16 texts, widths 0.06, 0.1, 0.16) takes about three minutes.
 */
export async function readAlphabet(reader: TextReader, options: ReadingOptions): Promise<GlyphReading[]> {
  const readings: GlyphReading[] = [];
  let seed = 0;
  for (const character of options.characters ?? READABLE) {
    const texts = textsWith(character).slice(0, options.textsPerGlyph);
    const glyphs = glyphAlternatives(character, TURN_RADIUS_METRES / HEIGHT_METRES).filter(({ hands }) => hands.includes(options.hand));
    for (const { style } of glyphs) {
      const misread: string[] = [];
      let shown = 0;
      for (const text of texts) {
        for (const strokeWidthHeights of options.strokeWidthsHeights) {
          seed += 1;
          const picture = pictureOf(
            textStrokes(text, (each) => (each === character ? style : 'crisp'), options.hand),
            strokeWidthHeights,
            options.wobbleMetres,
            seed,
          );
          const answer = await reader.read(picture);
          shown += 1;
          if (answer.text !== text) misread.push(`${text}>${answer.text}`);
        }
      }
      readings.push({ character, style, shown, read: shown - misread.length, misread });
    }
  }
  return readings;
}

/** The strokes of a text with a style chosen for each character; a style the hand lacks falls back to its first. */
export function textStrokes(text: string, styleOf: (character: string) => string, hand: Hand, heightMetres = HEIGHT_METRES): LetterPath[] {
  const result = typeset(text, { heightMetres, turnRadiusMetres: TURN_RADIUS_METRES, hand });
  if (!result.ok) throw new RangeError(result.reason);
  return result.layout.letters.flatMap(({ character, alternatives }) => {
    const chosen = alternatives.find(({ style }) => style === styleOf(character)) ?? alternatives[0];
    return chosen?.strokes.map(({ path }) => path) ?? [];
  });
}

/** The strokes as smoke of a width, flown with a wobble; mirrored as an onlooker above would see them. */
export function pictureOf(paths: readonly LetterPath[], strokeWidthHeights: number, wobbleMetres: number, seed: number, mirrored = false): Buffer {
  return drawPolylines(wobbledSmoke(paths, wobbleMetres, seed), { letterHeightMetres: HEIGHT_METRES, strokeWidthHeights, mirrored });
}

function textsWith(character: string): readonly string[] {
  const texts = /[A-Z]/.test(character) ? WORDS : /[0-9]/.test(character) ? NUMBERS : SIGNED_TEXTS;
  return texts.filter((text) => text.includes(character));
}
