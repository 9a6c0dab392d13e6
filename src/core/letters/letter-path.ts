import { arcDisplacement, type PathSegment, segmentsLengthMetres } from '../units/arc.ts';
import { positiveRadians } from '../units/angle.ts';

/** A point of the letter frame: x along reading, y towards the letters' tops, origin at the text's middle. */
export interface LetterPoint {
  readonly xMetres: number;
  readonly yMetres: number;
}

/** A point and the direction of travel through it, anticlockwise from x as the crowd sees it. */
export interface LetterPose extends LetterPoint {
  readonly directionRadians: number;
}

/** A tangent-continuous path in the letter frame, left-turning segments positive as the crowd sees them. */
export interface LetterPath {
  readonly start: LetterPose;
  readonly segments: readonly PathSegment[];
}

/** The pose a distance along a segment that starts at `pose`. */
export function advanceLetterPose(pose: LetterPose, lengthMetres: number, curvaturePerMetre: number): LetterPose {
  const step = arcDisplacement(pose.directionRadians, lengthMetres, curvaturePerMetre);
  return {
    xMetres: pose.xMetres + step.firstMetres,
    yMetres: pose.yMetres + step.secondMetres,
    directionRadians: positiveRadians(pose.directionRadians + curvaturePerMetre * lengthMetres),
  };
}

/** The pose at a distance from the path's start; clamped to the path's ends. */
export function letterPoseAt(path: LetterPath, alongMetres: number): LetterPose {
  let pose = path.start;
  let leftMetres = Math.max(0, alongMetres);
  for (const { lengthMetres, curvaturePerMetre } of path.segments) {
    const stepMetres = Math.min(leftMetres, lengthMetres);
    pose = advanceLetterPose(pose, stepMetres, curvaturePerMetre);
    leftMetres -= stepMetres;
    if (leftMetres <= 0) break;
  }
  return pose;
}

/**
 * The pose at the path's end.
 *
 * @oracle
 */
export function letterPathEnd(path: LetterPath): LetterPose {
  return letterPoseAt(path, letterPathLengthMetres(path));
}

/** The path's length. */
export function letterPathLengthMetres(path: LetterPath): number {
  return segmentsLengthMetres(path.segments);
}
