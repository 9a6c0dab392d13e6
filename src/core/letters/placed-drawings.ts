import type { LaidOutLetter, TextLayout } from './typeset.ts';
import { type LetterPath, letterPathLengthMetres, letterPoseAt } from './letter-path.ts';

/** A drawing to stand with words. */
export interface DrawingToPlace {
  readonly place: 'before' | 'after' | 'above' | 'below';
  /** In metres, round the drawing's own middle. */
  readonly strokes: readonly { readonly path: LetterPath; readonly closed: boolean }[];
}

/** What a drawing is called where a letter is named by its character. */
export const DRAWING_CHARACTER = '\u25c6';

interface Box {
  readonly leftMetres: number;
  readonly rightMetres: number;
  readonly bottomMetres: number;
  readonly topMetres: number;
}

const STEP_METRES = 20;

/**
 * A text's layout with drawings beside it, its middle again at the origin. Each drawing is one letter of one way to be
 * written, counted after the text's letters in the order given; those of one side stand side by side.
 *
 * @param layout null for drawings without words, which then stand side by side
 * @param gapMetres between drawing and words, and between drawings
 */
export function withDrawings(layout: TextLayout | null, drawings: readonly DrawingToPlace[], gapMetres: number): TextLayout {
  const words: TextLayout = layout ?? {
    letters: [],
    lineCount: 1,
    widthMetres: 0,
    depthMetres: 0,
    flyable: { smallestHeightMetres: 0, limitingCharacter: null },
  };
  let around: Box | null =
    layout === null
      ? null
      : { leftMetres: -words.widthMetres / 2, rightMetres: words.widthMetres / 2, bottomMetres: -words.depthMetres / 2, topMetres: words.depthMetres / 2 };
  const letters: LaidOutLetter[] = [...words.letters];
  for (const { place, strokes } of drawings) {
    const own = boxOf(strokes.map(({ path }) => path));
    if (own === null) continue;
    const [x, y] = around === null ? [0, 0] : offsetOf(around, own, layout === null ? 'after' : place, gapMetres);
    const placed = { leftMetres: own.leftMetres + x, rightMetres: own.rightMetres + x, bottomMetres: own.bottomMetres + y, topMetres: own.topMetres + y };
    letters.push({
      letterIndex: letters.length,
      character: DRAWING_CHARACTER,
      line: 0,
      leftMetres: placed.leftMetres,
      rightMetres: placed.rightMetres,
      widthMetres: placed.rightMetres - placed.leftMetres,
      alternatives: [{ style: 'drawn', strokes: strokes.map(({ path, closed }) => ({ path: movedPath(path, x, y), closed })) }],
    });
    around = around === null ? placed : joined(around, placed);
  }
  if (around === null) return words;
  const middleX = (around.leftMetres + around.rightMetres) / 2;
  const middleY = (around.bottomMetres + around.topMetres) / 2;
  return {
    ...words,
    letters: letters.map((letter) => ({
      ...letter,
      leftMetres: letter.leftMetres - middleX,
      rightMetres: letter.rightMetres - middleX,
      alternatives: letter.alternatives.map(({ style, strokes }) => ({
        style,
        strokes: strokes.map(({ path, closed }) => ({ path: movedPath(path, -middleX, -middleY), closed })),
      })),
    })),
    widthMetres: around.rightMetres - around.leftMetres,
    depthMetres: around.topMetres - around.bottomMetres,
  };
}

/** By how much a box is moved to stand on a side of another. */
function offsetOf(around: Box, own: Box, place: DrawingToPlace['place'], gapMetres: number): readonly [xMetres: number, yMetres: number] {
  const levelX = (around.leftMetres + around.rightMetres - own.leftMetres - own.rightMetres) / 2;
  const levelY = (around.bottomMetres + around.topMetres - own.bottomMetres - own.topMetres) / 2;
  switch (place) {
    case 'before':
      return [around.leftMetres - gapMetres - own.rightMetres, levelY];
    case 'after':
      return [around.rightMetres + gapMetres - own.leftMetres, levelY];
    case 'above':
      return [levelX, around.topMetres + gapMetres - own.bottomMetres];
    case 'below':
      return [levelX, around.bottomMetres - gapMetres - own.topMetres];
  }
}

function joined(one: Box, other: Box): Box {
  return {
    leftMetres: Math.min(one.leftMetres, other.leftMetres),
    rightMetres: Math.max(one.rightMetres, other.rightMetres),
    bottomMetres: Math.min(one.bottomMetres, other.bottomMetres),
    topMetres: Math.max(one.topMetres, other.topMetres),
  };
}

function boxOf(paths: readonly LetterPath[]): Box | null {
  const points = paths.flatMap((path) => {
    const lengthMetres = letterPathLengthMetres(path);
    const steps = Math.max(1, Math.ceil(lengthMetres / STEP_METRES));
    return Array.from({ length: steps + 1 }, (_, step) => letterPoseAt(path, (lengthMetres * step) / steps));
  });
  if (points.length === 0) return null;
  const xs = points.map(({ xMetres }) => xMetres);
  const ys = points.map(({ yMetres }) => yMetres);
  return { leftMetres: Math.min(...xs), rightMetres: Math.max(...xs), bottomMetres: Math.min(...ys), topMetres: Math.max(...ys) };
}

function movedPath({ start, segments }: LetterPath, xMetres: number, yMetres: number): LetterPath {
  return { start: { ...start, xMetres: start.xMetres + xMetres, yMetres: start.yMetres + yMetres }, segments };
}
