import type { OutlinePoint } from './outline.ts';

/** Smoke of two letters nearer than this runs together; wider apart, words fall into letters. */
export const NARROWEST_GAP_HEIGHTS = 0.15;
export const WIDEST_GAP_HEIGHTS = 0.7;

/** Rows in which the gap between two letters is looked at. */
const ROWS = 24;
/** How far back a letter's edge counts as near its neighbour; deeper is only sky. */
const DEEPEST_HEIGHTS = 0.25;
/** The share of the sky between two letters that is taken back by moving them together. */
const OPTICAL_SHARE = 0.45;
/** No two points of a pair come nearer than this share of the gap asked for: at 0.6, readers saw LI as U. */
const NEAREST_SHARE = 0.8;

/**
 * How far right of the left letter's origin the right letter's origin stands, in heights, so that the pair looks
 * as far apart as two stems `spacingHeights` apart: letters that fall away from each other, as in LT, AV or OO,
 * move together by a share of the sky between them (optical spacing). The nearest two points of the pair stay
 * between 0.15 and 0.7 heights apart, whatever is asked for.
 *
 * Two stems at 0.3 stand exactly 0.3 apart.
 *
 * @param depthHeights the depth of the letters, 1 unless stretched
 */
export function pairAdvanceHeights(left: readonly OutlinePoint[], right: readonly OutlinePoint[], spacingHeights: number, depthHeights: number): number {
  const leftEdges = edges(left, depthHeights, 1);
  const rightEdges = edges(right, depthHeights, -1);
  const touching = Math.max(...left.map(({ xHeights }) => xHeights)) - Math.min(...right.map(({ xHeights }) => xHeights));
  let skyHeights = 0;
  for (let row = 0; row < ROWS; row++) skyHeights += ((leftEdges[row] ?? 0) + (rightEdges[row] ?? 0)) / ROWS;
  const wanted = touching + spacingHeights - OPTICAL_SHARE * skyHeights;
  const narrowest = advanceAtGap(left, right, Math.max(NARROWEST_GAP_HEIGHTS, NEAREST_SHARE * spacingHeights), touching);
  const widest = advanceAtGap(left, right, WIDEST_GAP_HEIGHTS, touching);
  return Math.min(Math.max(wanted, narrowest), widest);
}

/** Row by row, how far the letter's side stays back from its outermost point, at most {@link DEEPEST_HEIGHTS}. */
function edges(points: readonly OutlinePoint[], depthHeights: number, side: 1 | -1): number[] {
  const outermost = Math.max(...points.map(({ xHeights }) => side * xHeights));
  const depths = Array.from({ length: ROWS }, () => DEEPEST_HEIGHTS);
  for (const { xHeights, yHeights } of points) {
    const row = Math.min(ROWS - 1, Math.floor((yHeights / depthHeights) * ROWS));
    // Accents and tails beyond the letters' depth keep their distance but shape no sky.
    if (row < 0 || yHeights > depthHeights + 0.01) continue;
    depths[row] = Math.min(depths[row] ?? DEEPEST_HEIGHTS, outermost - side * xHeights);
  }
  return depths;
}

/** The advance at which the nearest points of the pair are a gap apart, to a thousandth of a height. */
function advanceAtGap(left: readonly OutlinePoint[], right: readonly OutlinePoint[], gapHeights: number, touching: number): number {
  // Outermost points a gap apart in x are at least a gap apart; moving together from there finds the first contact.
  let apart = touching + gapHeights;
  let near = touching - 2 * DEEPEST_HEIGHTS - gapHeights;
  if (distanceSquared(left, right, near) >= gapHeights ** 2) return near;
  while (apart - near > 1e-3) {
    const middle = (apart + near) / 2;
    if (distanceSquared(left, right, middle) >= gapHeights ** 2) apart = middle;
    else near = middle;
  }
  return apart;
}

function distanceSquared(left: readonly OutlinePoint[], right: readonly OutlinePoint[], advanceHeights: number): number {
  let least = Infinity;
  for (const a of left) {
    for (const b of right) {
      const x = b.xHeights + advanceHeights - a.xHeights;
      const y = b.yHeights - a.yHeights;
      // Behind the left letter's point is as bad as on it.
      const squared = (x < 0 ? 0 : x * x) + y * y;
      if (squared < least) least = squared;
    }
  }
  return least;
}
