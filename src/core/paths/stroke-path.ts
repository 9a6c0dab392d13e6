import type { PathSegment } from '../units/arc.ts';
import { type AirPath, airPathLengthMetres, airPoseAt } from './air-path.ts';

/** A closed stroke begun elsewhere on itself: the same line from `alongMetres` round to there again. */
export function startedAt(path: AirPath, alongMetres: number): AirPath {
  const before: PathSegment[] = [];
  const after: PathSegment[] = [];
  let leftMetres = alongMetres;
  for (const { lengthMetres, curvaturePerMetre } of path.segments) {
    const beforeMetres = Math.min(Math.max(0, leftMetres), lengthMetres);
    if (beforeMetres > 0) before.push({ lengthMetres: beforeMetres, curvaturePerMetre });
    if (beforeMetres < lengthMetres) after.push({ lengthMetres: lengthMetres - beforeMetres, curvaturePerMetre });
    leftMetres -= lengthMetres;
  }
  return { start: airPoseAt(path, alongMetres), segments: [...after, ...before] };
}

/**
 * Where a closed stroke may be begun: at the joints and middles of its pieces, and then evenly, each at least
 * `spacingMetres` from the others along the stroke. Always offers the point it was drawn from.
 */
export function closedStartsMetres(path: AirPath, count: number): number[] {
  const lengthMetres = airPathLengthMetres(path);
  const spacingMetres = lengthMetres / count;
  const wanted: number[] = [0];
  let alongMetres = 0;
  for (const segment of path.segments) {
    wanted.push(alongMetres, alongMetres + segment.lengthMetres / 2);
    alongMetres += segment.lengthMetres;
  }
  for (let index = 0; index < 4 * count; index += 1) wanted.push((index / (4 * count)) * lengthMetres);
  const chosen: number[] = [];
  for (const along of wanted) {
    const clear = chosen.every((other) => {
      const apart = Math.abs(other - along);
      return Math.min(apart, lengthMetres - apart) >= spacingMetres * 0.75;
    });
    if (clear) chosen.push(along);
  }
  return chosen.sort((a, b) => a - b);
}

/** The smallest radius on a path; Infinity when it has no curve. */
export function smallestRadiusMetres(segments: readonly PathSegment[]): number {
  return segments.reduce((least, piece) => (piece.curvaturePerMetre === 0 ? least : Math.min(least, 1 / Math.abs(piece.curvaturePerMetre))), Infinity);
}
