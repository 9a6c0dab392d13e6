import { beltPassages, type BeltSketch } from './belt.ts';
import { stretchedStroke } from './depth-stretch.ts';
import type { Glyph, GlyphStroke } from './glyph.ts';
import { WIDEST_OWN_CURVE_HEIGHTS } from './grown-curves.ts';
import type { Hand } from './hand.ts';

/**
 * How a character is drawn: its width and its styles, the one to fall back on first. A style is a function of the
 * radius its rounded corners take; curves that belong to the letter grow to it as far as `grown-curves.ts` lets them.
 */
export interface CharacterDrawing {
  readonly widthHeights: number;
  /** The styles of the hand of round capitals; `crisp` alone where none are named. */
  readonly round?: readonly string[];
  /** The styles of the quickest hand; all but those for small letters where none are named. */
  readonly quickest?: readonly string[];
  /** Styles for letters so small that no other can be flown. */
  readonly small?: readonly string[];
  readonly styles: Readonly<Record<string, (roundingHeights: number) => readonly BeltSketch[]>>;
}

/** The tightest turn any glyph asks for, two bowls stacked in a letter's height, and the least a corner is rounded. */
export const TIGHTEST_RADIUS_HEIGHTS = 0.25;
/** Rounding a corner more widely may bend the lines beside it by this much before the drawing is another one. */
const MOST_CHANGE_RADIANS = 0.4;

/** A table of drawings by character. */
export type DrawingTable = Readonly<Record<string, CharacterDrawing>>;

/**
 * The glyphs of a drawing for a rounding radius; a style whose rounding does not fit is left out.
 *
 * @param depthStretch depth over height, at least 1; see {@link stretchedStroke}
 */
export function drawnGlyphs(character: string, drawing: CharacterDrawing, roundingHeights: number, depthStretch: number): Glyph[] {
  return Object.entries(drawing.styles).flatMap(([style, draw]) => {
    const strokes: GlyphStroke[] = [];
    // Styles for small letters are made to change with the radius, as far as letters do.
    const [plain = style] = style.split('-');
    const changes = drawing.small?.includes(plain) === true;
    const tightest = draw(TIGHTEST_RADIUS_HEIGHTS);
    for (const [index, sketch] of draw(changes ? Math.min(roundingHeights, WIDEST_OWN_CURVE_HEIGHTS) : roundingHeights).entries()) {
      if (!changes && !sameShape(sketch, tightest[index])) return [];
      const stroke = stretchedStroke(sketch, depthStretch);
      if (stroke === null) return [];
      strokes.push(stroke);
    }
    return [{ character, style, hands: handsOf(style, drawing), widthHeights: drawing.widthHeights, strokes }];
  });
}

/** Which hands draw with a style; an accent's own style, after a hyphen, changes nothing. */
function handsOf(style: string, { round = ['crisp'], quickest, small = [] }: CharacterDrawing): readonly Hand[] {
  const [plain = style] = style.split('-');
  if (small.includes(plain)) return [];
  return [
    ...(quickest?.includes(plain) === false ? [] : ['quickest' as const]),
    ...(round.includes(plain) ? ['round-capitals' as const] : []),
    ...(style === 'crisp' ? ['capitals' as const] : []),
  ];
}

/** Whether a belt turns on each pulley about as far as another: circles that grow past each other swap sides instead. */
function sameShape(sketch: BeltSketch, other: BeltSketch | undefined): boolean {
  const passages = beltPassages(sketch);
  const others = other === undefined ? null : beltPassages(other);
  if (passages === null || others === null) return false;
  return passages.every(({ sweepRadians }, index) => Math.abs(sweepRadians - (others[index]?.sweepRadians ?? NaN)) <= MOST_CHANGE_RADIANS);
}
