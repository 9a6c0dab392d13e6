import { at, type BeltSketch, from, loop, movedBelt } from './belt.ts';
import type { CharacterDrawing, DrawingTable } from './character-drawing.ts';

/**
 * Accents by their combining character, drawn round x = 0 and put over (or under) the middle of the letter. What
 * is small on paper is as large here as a ship can fly: a ring turns at 0.25 heights like the bowls of a B.
 */
const ACCENTS: Readonly<Record<string, CharacterDrawing['styles']>> = {
  '\u0300': { crisp: () => [from(-0.12, 1.44).to(0.08, 1.2)] },
  '\u0301': { crisp: () => [from(0.12, 1.44).to(-0.08, 1.2)] },
  '\u0302': {
    crisp: () => [from(-0.22, 1.2).to(0, 1.42), from(0, 1.42).to(0.22, 1.2)],
    arc: (r) => [
      at(-0.24, 1.41 - r + rise(r))
        .right(0, 1.41 - r, r)
        .until(0.24, 1.41 - r + rise(r)),
    ],
  },
  '\u0303': { crisp: () => [at(-0.43, 1.23).right(-0.25, 1.09, 0.25).left(0.25, 1.47, 0.25).until(0.43, 1.33)] },
  '\u0304': { crisp: () => [from(-0.24, 1.26).to(0.24, 1.26)] },
  '\u0306': { crisp: () => [at(-0.24, 1.37).left(0, 1.44, 0.25).until(0.24, 1.37)] },
  '\u0307': { crisp: () => [from(-0.06, 1.28).to(0.06, 1.28)] },
  '\u0308': { crisp: () => [from(-0.26, 1.28).to(-0.14, 1.28), from(0.14, 1.28).to(0.26, 1.28)] },
  '\u030a': { crisp: () => [loop().left(0, 1.42, 0.25).close()] },
  '\u030b': { crisp: () => [from(-0.02, 1.44).to(-0.2, 1.2), from(0.24, 1.44).to(0.06, 1.2)] },
  '\u030c': {
    crisp: () => [from(-0.22, 1.42).to(0, 1.2), from(0.22, 1.42).to(0, 1.2)],
    arc: (r) => [
      at(-0.24, 1.19 + r - rise(r))
        .left(0, 1.19 + r, r)
        .until(0.24, 1.19 + r - rise(r)),
    ],
  },
  '\u0326': { crisp: () => [from(0.06, -0.14).to(-0.06, -0.36)] },
  '\u0327': { crisp: () => [from(0.05, -0.12).to(-0.08, -0.36)] },
  '\u0328': { crisp: () => [from(0.02, -0.12).to(0.16, -0.36)] },
};

/** A combining accent over (or under) the middle of a letter that is lower by some heights; null when it has no drawing. */
export function accentSketches(accent: string, xHeights: number, risenHeights: number): readonly BeltSketch[] | null {
  const styles = Object.hasOwn(ACCENTS, accent) ? ACCENTS[accent] : undefined;
  const under = '\u0326\u0327\u0328'.includes(accent);
  return styles?.['crisp']?.(0).map((sketch) => movedBelt(sketch, xHeights, under ? 0 : risenHeights)) ?? null;
}

/** How high over its centre an arc of radius r stands 0.24 to the side of its middle. */
function rise(radiusHeights: number): number {
  return Math.sqrt(radiusHeights ** 2 - 0.24 ** 2);
}

/** Letters with a bar through them, which no accent composes, by their plain letter and the bar. */
const BARRED: Readonly<Record<string, { readonly plain: string; readonly bar: () => readonly BeltSketch[] }>> = {
  // Its bar is left out where it would cross the bowl's middle: whole, readers see no O but Z, Y, I or nothing.
  Ø: { plain: 'O', bar: () => [from(0.86, 1.12).to(0.66, 0.82), from(0.14, 0.18).to(-0.06, -0.12)] },
  Ł: { plain: 'L', bar: () => [from(-0.16, 0.36).to(0.24, 0.6)] },
  Đ: { plain: 'D', bar: () => [from(-0.16, 0.5).to(0.24, 0.5)] },
};

/**
 * The drawing of a letter with accents, put together from the tables' plain letter; null when one part has none.
 * Each style of the letter is joined with each style of its accents.
 */
export function composedDrawing(character: string, tables: readonly DrawingTable[]): CharacterDrawing | null {
  const [plain, ...marks] = character.normalize('NFD');
  const barred = plain !== undefined && Object.hasOwn(BARRED, plain) ? BARRED[plain] : undefined;
  if (plain === undefined || (marks.length === 0 && barred === undefined)) return null;
  const letter = barred?.plain ?? plain;
  const base = tables.find((table) => Object.hasOwn(table, letter))?.[letter];
  if (base === undefined) return null;
  const bar = barred?.bar;
  let drawing: CharacterDrawing = bar === undefined ? base : withStyle(base, 'crisp', bar);
  for (const mark of marks) {
    const accent = Object.hasOwn(ACCENTS, mark) ? ACCENTS[mark] : undefined;
    if (accent === undefined) return null;
    const styles: Record<string, CharacterDrawing['styles'][string]> = {};
    for (const [style, draw] of Object.entries(accent)) {
      Object.assign(
        styles,
        withStyle(drawing, style, (roundingHeights) => draw(roundingHeights).map((sketch) => movedBelt(sketch, base.widthHeights / 2))).styles,
      );
    }
    drawing = { ...base, styles };
  }
  return drawing;
}

/** The drawing with strokes added to each of its styles; any accent style but `crisp` shows in the name. */
function withStyle(drawing: CharacterDrawing, style: string, added: (roundingHeights: number) => readonly BeltSketch[]): CharacterDrawing {
  const styles = Object.entries(drawing.styles).map(([name, draw]) => [
    style === 'crisp' ? name : `${name}-${style}`,
    (roundingHeights: number) => [...draw(roundingHeights), ...added(roundingHeights)],
  ]);
  return { ...drawing, styles: Object.fromEntries(styles) };
}
