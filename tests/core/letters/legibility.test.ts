import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openTextReader, type TextReader } from '../../flight/read-text.ts';
import wordsOpen from '../../reference/words-open.json' with { type: 'json' };
import { pictureOf, READABLE, readAlphabet, textStrokes } from './legibility.ts';

let reader: TextReader;
beforeAll(async () => {
  reader = await openTextReader(`${READABLE} `);
}, 30_000);
afterAll(() => reader.close());

/** Widths of smoke from a few seconds old to about to blur, in letter heights. */
const WIDTHS = [0.07, 0.1, 0.14];
/** Root mean square of the hand's wobble. */
const WOBBLE_METRES = 12;

async function misreadWords(styleOf: (character: string) => string, mirrored: boolean): Promise<string[]> {
  const misread: string[] = [];
  for (const [index, word] of wordsOpen.words.entries()) {
    const answer = await reader.read(pictureOf(textStrokes(word, styleOf), WIDTHS[index % 3] ?? 0.1, WOBBLE_METRES, 1000 + index, mirrored));
    if (answer.text !== word) misread.push(`${word}>${answer.text}`);
  }
  return misread;
}

/** The style with the fewest strokes. */
const roundest = (character: string): string =>
  ({
    A: 'rounded',
    B: 'woven',
    D: 'rounded',
    E: 'rounded',
    F: 'rounded',
    G: 'rounded',
    K: 'rounded',
    L: 'rounded',
    M: 'shoulders',
    N: 'arch',
    P: 'rounded',
    Q: 'swash',
    R: 'knot',
    W: 'feet',
    X: 'bows',
    Y: 'right',
  })[character] ?? 'crisp';

describe('an eye that does not know the text reads, from below and flown by a wobbling hand', () => {
  test('every drawing of every character, in at least two of three widths of smoke', { timeout: 120_000 }, async () => {
    const readings = await readAlphabet(reader, { textsPerGlyph: 1, strokeWidthsHeights: WIDTHS, wobbleMetres: WOBBLE_METRES });
    expect(readings.length).toBeGreaterThanOrEqual(73);
    expect(readings.filter(({ shown }) => shown !== 3)).toEqual([]);
    expect(readings.filter(({ read }) => read < 2)).toEqual([]);
  });

  test('49 of the 50 words with corners crisp, 48 with the fewest strokes', { timeout: 60_000 }, async () => {
    const crisp = await misreadWords(() => 'crisp', false);
    expect(crisp.length, crisp.join(' ')).toBeLessThanOrEqual(1);
    const rounded = await misreadWords(roundest, false);
    expect(rounded.length, rounded.join(' ')).toBeLessThanOrEqual(2);
  });

  test('Ø as the O it is to an English eye', { timeout: 60_000 }, async () => {
    for (const word of ['BJØRN', 'SMØR', 'KØBEN']) {
      for (const width of [0.07, 0.12])
        expect(
          (
            await reader.read(
              pictureOf(
                textStrokes(word, () => 'crisp'),
                width,
                WOBBLE_METRES,
                1,
              ),
            )
          ).text,
        ).toBe(word.replace('Ø', 'O'));
    }
  });

  test('none of the 50 words mirrored, as an onlooker above would see them', { timeout: 60_000 }, async () => {
    expect(await misreadWords(() => 'crisp', true)).toHaveLength(50);
  });
});
