import type { PicturePoint } from './picture-view.ts';

/** A stroke as a loaded brush leaves it, ready for SVG: a filled outline and the dry streaks inside it. */
export interface BrushStroke {
  /** Closed path, to be filled. */
  readonly outline: string;
  /** Open paths, to be stroked thinly and dashed in the paper's colour; empty for narrow strokes. */
  readonly streaks: readonly string[];
}

/** Under this width streaks would only look dirty. */
const STREAK_FROM_PIXELS = 6;

/** How much the brush swells and thins along the way, as a share of its width. */
const WOBBLE = 0.07;

const CAP_PIECES = 6;

/**
 * The outline of a brush stroke along a line of points. The hand is steady and only the width breathes, so that
 * the middle of the stroke stays exactly where it is planned; the same seed gives the same stroke.
 *
 * @param points at least one; a single point gives a dot
 */
export function brushStroke(points: readonly PicturePoint[], widthPixels: number, seed: number): BrushStroke {
  const halfs = halfWidths(points, widthPixels, seed);
  const left = offsetLine(points, (index) => halfs[index] ?? 0);
  const right = offsetLine(points, (index) => -(halfs[index] ?? 0)).reverse();
  const outline = [...left, ...cap(points, halfs, 'end'), ...right, ...cap(points, halfs, 'start')];
  const streaks =
    widthPixels < STREAK_FROM_PIXELS || points.length < 4
      ? []
      : [-0.42, 0.12, 0.5].map((share) => pathText(offsetLine(points, (index) => (halfs[index] ?? 0) * share)));
  return { outline: `${pathText(outline)}Z`, streaks };
}

/** A hand's unsteadiness: smooth, between -1 and 1, the same for the same seed. */
function breath(alongPixels: number, seed: number): number {
  const cell = Math.floor(alongPixels / 22);
  const share = alongPixels / 22 - cell;
  const smooth = share * share * (3 - 2 * share);
  return hashed(cell, seed) * (1 - smooth) + hashed(cell + 1, seed) * smooth;
}

function hashed(cell: number, seed: number): number {
  const wave = Math.sin(cell * 127.1 + seed * 311.7) * 43_758.545;
  return 2 * (wave - Math.floor(wave)) - 1;
}

function halfWidths(points: readonly PicturePoint[], widthPixels: number, seed: number): number[] {
  let alongPixels = 0;
  return points.map((point, index) => {
    const before = points[index - 1];
    if (before !== undefined) alongPixels += Math.hypot(point.xPixels - before.xPixels, point.upPixels - before.upPixels);
    // The brush lands full and runs a little drier.
    const load = 1.06 - 0.12 * (index / Math.max(1, points.length - 1));
    return (widthPixels / 2) * (load + WOBBLE * breath(alongPixels, seed));
  });
}

function directionAt(points: readonly PicturePoint[], index: number): number {
  const after = points[Math.min(points.length - 1, index + 1)];
  const before = points[Math.max(0, index - 1)];
  if (after === undefined || before === undefined) return 0;
  return Math.atan2(after.upPixels - before.upPixels, after.xPixels - before.xPixels);
}

function offsetLine(points: readonly PicturePoint[], leftPixels: (index: number) => number): PicturePoint[] {
  return points.map((point, index) => {
    const direction = directionAt(points, index);
    const aside = leftPixels(index);
    return { xPixels: point.xPixels - aside * Math.sin(direction), upPixels: point.upPixels + aside * Math.cos(direction) };
  });
}

function cap(points: readonly PicturePoint[], halfs: readonly number[], which: 'start' | 'end'): PicturePoint[] {
  const index = which === 'end' ? points.length - 1 : 0;
  const point = points[index];
  const half = halfs[index];
  if (point === undefined || half === undefined) return [];
  const first = directionAt(points, index) + (which === 'end' ? Math.PI / 2 : -Math.PI / 2);
  return Array.from({ length: CAP_PIECES - 1 }, (_, piece) => {
    const radians = first - (Math.PI * (piece + 1)) / CAP_PIECES;
    return { xPixels: point.xPixels + half * Math.cos(radians), upPixels: point.upPixels + half * Math.sin(radians) };
  });
}

function pathText(points: readonly PicturePoint[]): string {
  // Rounded by arithmetic: toFixed on thousands of points is what a keystroke would wait for.
  const number = (value: number): number => Math.round(value * 10) / 10 + 0;
  return points.map(({ xPixels, upPixels }, index) => `${index === 0 ? 'M' : 'L'}${number(xPixels)} ${number(-upPixels)}`).join('');
}
