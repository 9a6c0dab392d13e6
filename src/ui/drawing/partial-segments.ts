import type { PathSegment } from '../../core/units/arc.ts';

/** The part of a path's segments that lies within `alongMetres` of its start; all of them beyond its end. */
export function partialSegments(segments: readonly PathSegment[], alongMetres: number): PathSegment[] {
  const part: PathSegment[] = [];
  let leftMetres = alongMetres;
  for (const segment of segments) {
    if (leftMetres <= 0) break;
    part.push(segment.lengthMetres <= leftMetres ? segment : { ...segment, lengthMetres: leftMetres });
    leftMetres -= segment.lengthMetres;
  }
  return part;
}
