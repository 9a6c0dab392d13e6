import type { DrawnCharacter } from './drawn-character.ts';
import { pairAdvanceHeights, WIDEST_GAP_HEIGHTS } from './letter-spacing.ts';

/** Sky between two words beyond the gap between letters. */
const WORD_GAP_HEIGHTS = 0.65;
/** Sky between two lines over the letters' depth: wider than between words, so that lines are read along. */
const LINE_GAP_DEPTHS = 0.5;

/** Where the lines' baselines lie with the text's middle at 0; accents and tails push lines apart. */
export function lineHeights(
  lines: readonly (readonly string[])[],
  drawn: ReadonlyMap<string, DrawnCharacter>,
  depthStretch: number,
): { readonly baselinesHeights: readonly number[]; readonly depthHeights: number } {
  const baselines: number[] = [];
  let topHeights = 0;
  let belowHeights = 0;
  for (const line of lines) {
    const drawings = line.flatMap((character) => drawn.get(character) ?? []);
    const aboveHeights = Math.max(0, ...drawings.map((drawing) => drawing.topHeights - depthStretch));
    const before = baselines.at(-1);
    if (before === undefined) {
      topHeights = Math.max(...drawings.map((drawing) => drawing.topHeights));
      baselines.push(0);
    } else {
      baselines.push(before - belowHeights - aboveHeights - (1 + LINE_GAP_DEPTHS) * depthStretch);
    }
    belowHeights = Math.max(...drawings.map((drawing) => -drawing.bottomHeights));
  }
  const bottomHeights = (baselines.at(-1) ?? 0) - belowHeights;
  const middleHeights = (topHeights + bottomHeights) / 2;
  return { baselinesHeights: baselines.map((baseline) => baseline - middleHeights), depthHeights: topHeights - bottomHeights };
}

/** A character and where its origin stands along the line. */
export interface PlacedCharacter {
  readonly character: string;
  readonly drawing: DrawnCharacter;
  readonly xHeights: number;
}

/** A line's characters, or joined pieces, side by side, the first at 0; spaces are sky between them. */
export function placedLine(line: readonly string[], drawn: ReadonlyMap<string, DrawnCharacter>, spacingHeights: number): PlacedCharacter[] {
  const placed: PlacedCharacter[] = [];
  let afterSpace = false;
  for (const character of line) {
    const drawing = drawn.get(character);
    if (drawing === undefined) {
      afterSpace = true;
      continue;
    }
    const before = placed.at(-1);
    let xHeights = 0;
    if (before !== undefined) {
      const gapHeights = Math.min(spacingHeights, WIDEST_GAP_HEIGHTS);
      xHeights =
        before.xHeights +
        (afterSpace
          ? before.drawing.rightHeights - drawing.leftHeights + gapHeights + WORD_GAP_HEIGHTS
          : before.drawing.advanceHeights !== null && drawing.advanceHeights !== null
            ? before.drawing.advanceHeights
            : pairAdvanceHeights(before.drawing.rightEdge, drawing.leftEdge, gapHeights));
    }
    placed.push({ character, drawing, xHeights });
    afterSpace = false;
  }
  return placed;
}
