import { signedRadians } from '../units/angle.ts';
import { airPathLengthMetres, airPoseAt, type AirPath, type AirPoint, type AirPose } from './air-path.ts';

/** Where a point stands beside a path. */
export interface PathProjection {
  /** From the path's start; negative before it and beyond its length after it, along the end's tangents. */
  readonly alongMetres: number;
  /** Right of the path positive. */
  readonly crossTrackMetres: number;
  /** The path's own pose there. */
  readonly pose: AirPose;
}

/** What is left ahead and to the right of a pose. */
export function relativeTo(pose: AirPose, point: AirPoint): { readonly aheadMetres: number; readonly rightMetres: number } {
  const east = point.airEastMetres - pose.airEastMetres;
  const north = point.airNorthMetres - pose.airNorthMetres;
  const cosine = Math.cos(pose.directionRadians);
  const sine = Math.sin(pose.directionRadians);
  return { aheadMetres: east * cosine + north * sine, rightMetres: east * sine - north * cosine };
}

/** Curvature of the path at a distance along it; 0 outside it. */
export function curvatureAt(path: AirPath, alongMetres: number): number {
  let leftMetres = alongMetres;
  if (leftMetres < 0) return 0;
  for (const segment of path.segments) {
    if (leftMetres < segment.lengthMetres) return segment.curvaturePerMetre;
    leftMetres -= segment.lengthMetres;
  }
  return 0;
}

const STEPS = 6;

/**
 * The place on the path abeam of a point, found by walking from a known one, so that a path that crosses itself or
 * closes is followed and not cut short. Converges while the point is nearer than the path's radius.
 *
 * @param nearMetres where along the path to begin looking
 */
export function projectOnPath(path: AirPath, point: AirPoint, nearMetres: number): PathProjection {
  const lengthMetres = airPathLengthMetres(path);
  let alongMetres = nearMetres;
  let pose = extendedPoseAt(path, alongMetres, lengthMetres);
  let relative = relativeTo(pose, point);
  for (let step = 0; step < STEPS && Math.abs(relative.aheadMetres) > 0.01; step += 1) {
    // On an arc a step ahead of the tangent is a longer or shorter step along the arc.
    const stretch = Math.max(0.3, 1 + curvatureAt(path, alongMetres) * relative.rightMetres);
    alongMetres += relative.aheadMetres / stretch;
    pose = extendedPoseAt(path, alongMetres, lengthMetres);
    relative = relativeTo(pose, point);
  }
  return { alongMetres, crossTrackMetres: relative.rightMetres, pose };
}

function extendedPoseAt(path: AirPath, alongMetres: number, lengthMetres: number): AirPose {
  const inside = airPoseAt(path, alongMetres);
  const beyondMetres = alongMetres < 0 ? alongMetres : Math.max(0, alongMetres - lengthMetres);
  return {
    airEastMetres: inside.airEastMetres + beyondMetres * Math.cos(inside.directionRadians),
    airNorthMetres: inside.airNorthMetres + beyondMetres * Math.sin(inside.directionRadians),
    directionRadians: signedRadians(inside.directionRadians),
  };
}
