import { smallestHeight } from './flyable-height.ts';
import type { Glyph } from './glyph.ts';
import type { Hand } from './hand.ts';
import { type LetterEdge, letterEdge } from './letter-spacing.ts';
import { outlinePoints } from './outline.ts';

/** A drawing may need this much more height than the letter has, for rounding. */
const HEIGHT_SLACK = 1e-6;

/** What a character is drawn for. */
export interface DrawnCharacterOptions {
  readonly turnRadiusMetres: number;
  readonly heightMetres: number;
  readonly depthStretch: number;
  readonly hand: Hand;
}

/** A character's offered glyphs and what placing them needs. */
export interface DrawnCharacter {
  readonly glyphs: readonly Glyph[];
  readonly rightEdge: LetterEdge;
  readonly leftEdge: LetterEdge;
  readonly leftHeights: number;
  readonly rightHeights: number;
  readonly bottomHeights: number;
  readonly topHeights: number;
  readonly smallestHeightMetres: number;
  /** Where a small letter after it begins in the joined hand; null where the sky between them decides. */
  readonly advanceHeights: number | null;
}

/**
 * A character's glyphs made ready to be placed: those of the hand that the ship can fly; else those for small letters,
 * or of another hand, that it can; else the one that needs the least height.
 *
 * @param glyphs every drawing of the character for this ship and height
 * @param widest the same for the widest turn that a drawing takes, which sets the smallest height
 */
export function drawnCharacter(glyphs: readonly Glyph[], widest: readonly Glyph[], options: DrawnCharacterOptions): DrawnCharacter {
  const { hand, turnRadiusMetres, heightMetres, depthStretch } = options;
  const ofHand = glyphs.filter(({ hands }) => hands.includes(hand));
  const flown = (offered: readonly Glyph[]): readonly Glyph[] =>
    offered.filter((glyph) => smallestHeight(glyph, turnRadiusMetres).heightMetres <= heightMetres * (1 + HEIGHT_SLACK));
  const kindest = glyphs.toSorted((one, other) => smallestHeight(one, turnRadiusMetres).heightMetres - smallestHeight(other, turnRadiusMetres).heightMetres);
  const offered =
    [flown(ofHand), flown(glyphs.filter(({ hands }) => hands.length === 0)), flown(glyphs)].find(({ length }) => length > 0) ?? kindest.slice(0, 1);
  const outline = outlinePoints(offered);
  const rightEdge = letterEdge(outline, 1, depthStretch);
  const leftEdge = letterEdge(outline, -1, depthStretch);
  return {
    glyphs: offered,
    rightEdge,
    leftEdge,
    leftHeights: leftEdge.outermostHeights,
    rightHeights: rightEdge.outermostHeights,
    bottomHeights: Math.min(...outline.map(({ yHeights }) => yHeights)),
    topHeights: Math.max(...outline.map(({ yHeights }) => yHeights)),
    smallestHeightMetres: Math.min(...widest.map((glyph) => smallestHeight(glyph, turnRadiusMetres).heightMetres)),
    advanceHeights: null,
  };
}
