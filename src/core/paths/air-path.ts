import { positiveRadians } from '../units/angle.ts';
import { arcDisplacement, type PathSegment, reversedSegments, segmentsLengthMetres } from '../units/arc.ts';

/** A point of the air-mass frame: metres east and north in the air that stood over the site at the datum. */
export interface AirPoint {
  readonly airEastMetres: number;
  readonly airNorthMetres: number;
}

/** A point and the direction flown through the air, anticlockwise from east (a heading, without sideslip). */
export interface AirPose extends AirPoint {
  readonly directionRadians: number;
}

/** A tangent-continuous path through the air: lines are constant headings, arcs constant banks. */
export interface AirPath {
  readonly start: AirPose;
  readonly segments: readonly PathSegment[];
}

/** The pose a distance along a segment that starts at `pose`; a negative length goes back along it. */
export function advanceAirPose(pose: AirPose, lengthMetres: number, curvaturePerMetre: number): AirPose {
  const step = arcDisplacement(pose.directionRadians, lengthMetres, curvaturePerMetre);
  return {
    airEastMetres: pose.airEastMetres + step.firstMetres,
    airNorthMetres: pose.airNorthMetres + step.secondMetres,
    directionRadians: positiveRadians(pose.directionRadians + curvaturePerMetre * lengthMetres),
  };
}

/** The pose at a distance from the path's start; clamped to the path's ends. */
export function airPoseAt(path: AirPath, alongMetres: number): AirPose {
  let pose = path.start;
  let leftMetres = Math.max(0, alongMetres);
  for (const { lengthMetres, curvaturePerMetre } of path.segments) {
    const stepMetres = Math.min(leftMetres, lengthMetres);
    pose = advanceAirPose(pose, stepMetres, curvaturePerMetre);
    leftMetres -= stepMetres;
    if (leftMetres <= 0) break;
  }
  return pose;
}

/** The pose at the path's end. */
export function airPathEnd(path: AirPath): AirPose {
  return airPoseAt(path, airPathLengthMetres(path));
}

/** The path's length through the air. */
export function airPathLengthMetres(path: AirPath): number {
  return segmentsLengthMetres(path.segments);
}

/** The same line flown from its other end. */
export function reversedAirPath(path: AirPath): AirPath {
  const end = airPathEnd(path);
  return {
    start: { ...end, directionRadians: positiveRadians(end.directionRadians + Math.PI) },
    segments: reversedSegments(path.segments),
  };
}
