/** One piece of a tangent-continuous path, in any frame: a line (curvature 0) or an arc of a circle. */
export interface PathSegment {
  readonly lengthMetres: number;
  /** One over the radius, positive when turning left (anticlockwise) in the path's own frame. */
  readonly curvaturePerMetre: number;
}

/** A displacement in the frame in which `directionRadians` was given. */
export interface Displacement {
  readonly firstMetres: number;
  readonly secondMetres: number;
}

/**
 * Where a segment ends, seen from where it begins. The chord of an arc of length L and curvature k has length
 * `L sinc(k L / 2)` and leaves at half the turn, which holds without cancellation down to k = 0.
 *
 * `arcDisplacement(0, Math.PI * 100, 1 / 100)` is (0, 200): half a left turn of radius 100 m.
 *
 * @param directionRadians direction at the start, anticlockwise from the frame's first axis
 */
export function arcDisplacement(directionRadians: number, lengthMetres: number, curvaturePerMetre: number): Displacement {
  const halfTurnRadians = (curvaturePerMetre * lengthMetres) / 2;
  const chordMetres =
    Math.abs(halfTurnRadians) < 1e-4
      ? lengthMetres * (1 - (halfTurnRadians * halfTurnRadians) / 6)
      : (lengthMetres * Math.sin(halfTurnRadians)) / halfTurnRadians;
  return {
    firstMetres: chordMetres * Math.cos(directionRadians + halfTurnRadians),
    secondMetres: chordMetres * Math.sin(directionRadians + halfTurnRadians),
  };
}

/** The length of a list of segments. */
export function segmentsLengthMetres(segments: readonly PathSegment[]): number {
  return segments.reduce((sum, segment) => sum + segment.lengthMetres, 0);
}

/** The segments flown the other way: last first, left turns become right turns. */
export function reversedSegments(segments: readonly PathSegment[]): PathSegment[] {
  return segments.map(({ lengthMetres, curvaturePerMetre }) => ({ lengthMetres, curvaturePerMetre: 0 - curvaturePerMetre })).reverse();
}
