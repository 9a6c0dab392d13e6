import type { CardPiece, CardStep } from '../../core/plan/flight-card.ts';
import { degreesFromRadians } from '../../core/units/angle.ts';
import { formatBearing, formatNumber } from '../../core/text/number-formats.ts';

/** One page of a kneeboard card. */
export interface CardPage {
  readonly steps: readonly CardStep[];
  /** 1-based, of how many. */
  readonly number: number;
  readonly count: number;
}

/** From this many strokes on a card is set tighter, in its smallest type of 8 points. */
export const TIGHT_FROM_STROKES = 6;

/** Heights on A5, in millimetres of its 210, as measured in a browser's print at 8 points. */
const LINE = 3.3;
const ROW_PADDING = 1.1;
/** What header, picture, table head and footer leave to the rows: of a card's only page, its first, and any later one. */
const ROOM = { only: 95, first: 100, later: 144 };
/** Characters on a line of the two wide columns, with room for the widest typefaces. */
const WAY_CHARACTERS = 39;
const SMOKE_CHARACTERS = 25;

/**
 * The strokes of a card by pages: one page for as many as fit one, at least 14 as they are usually flown; else as
 * few pages as hold them. Heights are estimated from the characters of each row; a browser test holds them to the paper.
 */
export function cardPages(steps: readonly CardStep[]): CardPage[] {
  const whole = steps.reduce((sum, step) => sum + rowMillimetres(step), 0);
  if (whole <= ROOM.only) return [{ steps, number: 1, count: 1 }];
  const pages: CardStep[][] = [[]];
  let left = ROOM.first;
  for (const step of steps) {
    const height = rowMillimetres(step);
    if (height > left && (pages.at(-1)?.length ?? 0) > 0) {
      pages.push([]);
      left = ROOM.later;
    }
    left -= height;
    pages.at(-1)?.push(step);
  }
  // The last page holds the footer: when everything went onto the first, its last stroke goes over.
  if (pages.length === 1) pages.push(pages[0]?.splice(-1) ?? []);
  return pages.map((own, index) => ({ steps: own, number: index + 1, count: pages.length }));
}

/** `L152°→047` for a turn left through 152 degrees onto 047, `4s` for four seconds straight. */
export function pieceWords(pieces: readonly CardPiece[], compassDegrees: (headingRadians: number) => number): string[] {
  return pieces.map((piece) =>
    piece.kind === 'straight'
      ? `${formatNumber(piece.seconds)}s`
      : `${piece.kind === 'left' ? 'L' : 'R'}${formatNumber(degreesFromRadians(piece.turnRadians))}°→${formatBearing(compassDegrees(piece.headingRadians))}`,
  );
}

function rowMillimetres({ way, smoke, holdSeconds }: CardStep): number {
  const words = (pieces: readonly CardPiece[]): string[] => pieceWords(pieces, () => 0);
  const wayLines = lineCount([...words(way), ...(holdSeconds > 0 ? ['hold', '00:00'] : []), '=000s'], WAY_CHARACTERS);
  const smokeLines = smoke.length === 1 && smoke[0]?.kind === 'straight' ? 1 : lineCount(['0000', ...words(smoke)], SMOKE_CHARACTERS);
  return ROW_PADDING + LINE * Math.max(wayLines, smokeLines);
}

/** Lines that words take, none of them broken. */
function lineCount(words: readonly string[], characters: number): number {
  let lines = 1;
  let used = 0;
  for (const { length } of words) {
    if (used > 0 && used + 1 + length > characters) {
      lines += 1;
      used = length;
    } else used += (used > 0 ? 1 : 0) + length;
  }
  return lines;
}
