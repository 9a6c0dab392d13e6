import type { OutlinePoint } from './outline.ts';

/** Smoke of two letters nearer than this runs together; wider apart, words fall into letters. */
export const NARROWEST_GAP_HEIGHTS = 0.15;
export const WIDEST_GAP_HEIGHTS = 0.7;

/** A letter's outermost points towards one neighbour, one for each row that has ink. */
export interface LetterEdge {
  readonly points: readonly OutlinePoint[];
  /** Mean over the letter's depth of how far its edge stays back from its outermost point, cut off at 0.25. */
  readonly skyHeights: number;
  readonly outermostHeights: number;
}

const ROW_HEIGHTS = 0.04;
/** How far back a letter's edge counts as near its neighbour; deeper is only sky. */
const DEEPEST_HEIGHTS = 0.25;
/** The share of the sky between two letters that is taken back by moving them together. */
const OPTICAL_SHARE = 0.45;
/** No two points of a pair come nearer than this share of the gap asked for: at 0.6, readers saw LI as U. */
const NEAREST_SHARE = 0.8;

/**
 * The edge a letter shows to its neighbour.
 *
 * @param side 1 for the right edge, -1 for the left
 * @param depthHeights the depth of the letters, 1 unless stretched
 */
export function letterEdge(outline: readonly OutlinePoint[], side: 1 | -1, depthHeights: number): LetterEdge {
  const rows = new Map<number, OutlinePoint>();
  for (const point of outline) {
    const row = Math.floor(point.yHeights / ROW_HEIGHTS);
    const before = rows.get(row);
    if (before === undefined || side * point.xHeights > side * before.xHeights) rows.set(row, point);
  }
  const points = [...rows.values()];
  const outermostHeights = side * Math.max(...points.map(({ xHeights }) => side * xHeights));
  // Accents and tails beyond the letters' depth keep their distance but shape no sky.
  const rowCount = Math.ceil(depthHeights / ROW_HEIGHTS);
  let skyHeights = 0;
  for (let row = 0; row < rowCount; row++) {
    const point = rows.get(row);
    const backHeights = point === undefined ? DEEPEST_HEIGHTS : side * (outermostHeights - point.xHeights);
    skyHeights += Math.min(DEEPEST_HEIGHTS, backHeights) / rowCount;
  }
  return { points, skyHeights, outermostHeights };
}

/**
 * How far right of the left letter's origin the right letter's origin stands, in heights, so that the pair looks
 * as far apart as two stems `spacingHeights` apart: letters that fall away from each other, as in LT, AV or OO,
 * move together by a share of the sky between them (optical spacing). The nearest two points of the pair stay
 * between 0.15 and 0.7 heights apart, whatever is asked for, and no letter reaches under or over its neighbour.
 *
 * Two stems at 0.3 stand exactly 0.3 apart.
 *
 * @param left the left letter's right edge
 * @param right the right letter's left edge
 */
export function pairAdvanceHeights(left: LetterEdge, right: LetterEdge, spacingHeights: number): number {
  const touching = left.outermostHeights - right.outermostHeights;
  const wanted = touching + spacingHeights - OPTICAL_SHARE * (left.skyHeights + right.skyHeights);
  const narrowest = advanceAtGap(left, right, Math.max(NARROWEST_GAP_HEIGHTS, NEAREST_SHARE * spacingHeights));
  const widest = advanceAtGap(left, right, WIDEST_GAP_HEIGHTS);
  const near = Math.max(wanted, narrowest);
  return Math.max(touching, widest === -Infinity ? near : Math.min(near, widest));
}

/**
 * The least advance at which no point of the right letter is nearer than a gap to one of the left, or behind it;
 * minus infinity when none lie that near in height.
 */
function advanceAtGap(left: LetterEdge, right: LetterEdge, gapHeights: number): number {
  let advance = -Infinity;
  for (const a of left.points) {
    for (const b of right.points) {
      const underSquared = gapHeights ** 2 - (a.yHeights - b.yHeights) ** 2;
      if (underSquared > 0) advance = Math.max(advance, a.xHeights - b.xHeights + Math.sqrt(underSquared));
    }
  }
  return advance;
}
