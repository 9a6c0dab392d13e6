import type { PicturePoint } from './picture-view.ts';

/** A place for a label, and what it names. */
export interface LabelWish {
  /** The point labelled. */
  readonly point: PicturePoint;
  /** Direction of travel there, anticlockwise from the picture's right. */
  readonly directionRadians: number;
}

/** Directions tried round the point, from its travel: aside to both hands, behind, then slantwise. */
const TRIED_RADIANS = [Math.PI / 2, -Math.PI / 2, Math.PI, (3 * Math.PI) / 4, (-3 * Math.PI) / 4, Math.PI / 4, -Math.PI / 4];

/** Distances tried, in label radii. */
const TRIED_DISTANCES = [1.35, 2, 2.9];

/** The farthest candidate and what it covers around it, in label radii. */
const REACH = 2.9 + 1.25;

/**
 * Where round labels stand so that they cover neither each other nor, as far as there is room, the drawing. Greedy
 * and in order: the first label chooses first; when every place is taken the least covered one is used.
 *
 * @param drawing points of what is drawn, about a label's radius apart or closer
 */
export function labelPlaces(wishes: readonly LabelWish[], radiusPixels: number, drawing: readonly PicturePoint[]): PicturePoint[] {
  const placed: PicturePoint[] = [];
  for (const wish of wishes) {
    let best = wish.point;
    let bestCost = Infinity;
    // Only what lies in reach of any candidate can be covered by one.
    const near = drawing.filter(
      ({ xPixels, upPixels }) => Math.max(Math.abs(xPixels - wish.point.xPixels), Math.abs(upPixels - wish.point.upPixels)) < REACH * radiusPixels,
    );
    for (const [order, distance] of TRIED_DISTANCES.entries()) {
      for (const [turn, offset] of TRIED_RADIANS.entries()) {
        const radians = wish.directionRadians + offset;
        const candidate = {
          xPixels: wish.point.xPixels + distance * radiusPixels * Math.cos(radians),
          upPixels: wish.point.upPixels + distance * radiusPixels * Math.sin(radians),
        };
        const cost = 40 * covered(candidate, placed, 2.1 * radiusPixels) + covered(candidate, near, 1.25 * radiusPixels) + 0.6 * order + 0.05 * turn;
        if (cost < bestCost) [best, bestCost] = [candidate, cost];
      }
    }
    placed.push(best);
  }
  return placed;
}

function covered(candidate: PicturePoint, points: readonly PicturePoint[], withinPixels: number): number {
  let count = 0;
  for (const point of points) {
    if (Math.hypot(point.xPixels - candidate.xPixels, point.upPixels - candidate.upPixels) < withinPixels) count += 1;
  }
  return count;
}
