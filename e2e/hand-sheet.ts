import { glyphAlternatives } from '../src/core/letters/alphabet.ts';
import { letterPathFromGlyph } from '../src/core/letters/glyph-path.ts';
import type { Hand } from '../src/core/letters/hand.ts';
import { createSvgPathSink, drawLetterPath } from '../src/core/letters/letter-drawing.ts';
import { typeset } from '../src/core/letters/typeset.ts';

const CHARACTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789!?&@#%€$♥★→☺⚡♪○';
const HEIGHT = 60;
const COLUMNS = 13;

/** What the joined hand is shown by: the alphabet in names, a row each. */
const NAMES = ['ALFRED JOÃO', 'SOPHIE KEVIN', 'GWENDY DUCX', 'FAZEL QUIM', 'TABITA HEJKO', 'JONAS AQUA'];

/** A page with the joined hand, whose letters depend on their neighbours. */
export function joinedSheet(): string {
  const rows = NAMES.map((text, row) => {
    const set = typeset(text, { heightMetres: HEIGHT, turnRadiusMetres: HEIGHT / 4, hand: 'joined' });
    if (!set.ok) throw new Error(set.reason);
    const sink = createSvgPathSink(1);
    for (const { alternatives } of set.layout.letters) for (const { path } of alternatives[0]?.strokes ?? []) drawLetterPath(path, sink);
    return `<path d="${sink.pathData()}" transform="translate(${330 + 560 * (row % 2)} ${90 + 120 * Math.floor(row / 2)})"/>`;
  });
  return page(rows.join(''), COLUMNS * 92 + 20, 420);
}

/** A page with every character of a hand, in the drawing of fewest strokes, for a ship that turns on a quarter of the height. */
export function handSheet(hand: Hand): string {
  const cells = [...CHARACTERS].map((character, index) => {
    const [glyph] = glyphAlternatives(character, 0.25)
      .filter(({ hands }) => hands.includes(hand))
      .toSorted((one, other) => one.strokes.length - other.strokes.length);
    if (glyph === undefined) throw new Error(`${hand} does not draw ${character}`);
    const paths = glyph.strokes.map((stroke) => {
      const sink = createSvgPathSink(1);
      drawLetterPath(letterPathFromGlyph(stroke, HEIGHT, 0, 0), sink);
      return `<path d="${sink.pathData()}"/>`;
    });
    const x = 20 + (index % COLUMNS) * 92 + (72 - glyph.widthHeights * HEIGHT) / 2;
    const y = 90 + Math.floor(index / COLUMNS) * 100;
    return `<g transform="translate(${x} ${y})">${paths.join('')}</g>`;
  });
  const rows = Math.ceil(CHARACTERS.length / COLUMNS);
  return page(cells.join(''), COLUMNS * 92 + 20, rows * 100 + 30);
}

const page = (drawing: string, width: number, height: number): string =>
  `<body style="margin:0;background:#f6f1e4"><svg width="${width}" height="${height}" fill="none" stroke="#14203a" stroke-width="6" stroke-linecap="round">${drawing}</svg></body>`;
