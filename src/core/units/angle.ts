/**
 * Angles. Core computes in radians; degrees appear only for latitude, longitude and bearings at the edges.
 * A bearing runs clockwise from true north; a direction runs anticlockwise from east (or from the letter
 * frame's x). Both stand in field names: `headingRadians`, `bearingRadians` against `directionRadians`.
 */

const TURN = 2 * Math.PI;

/** Radians from degrees; exact to rounding. `radiansFromDegrees(180)` is pi. */
export function radiansFromDegrees(degrees: number): number {
  return (degrees * Math.PI) / 180;
}

/** Degrees from radians; the inverse of {@link radiansFromDegrees}. */
export function degreesFromRadians(radians: number): number {
  return (radians * 180) / Math.PI;
}

/** The same angle in (-pi, pi], for differences. `signedRadians(3 * Math.PI)` is pi. */
export function signedRadians(radians: number): number {
  const positive = positiveRadians(radians);
  return positive > Math.PI ? positive - TURN : positive;
}

/** The same angle in [0, 2 pi). `positiveRadians(-Math.PI / 2)` is 3 pi / 2. */
export function positiveRadians(radians: number): number {
  const rest = radians % TURN;
  if (rest >= 0) return rest;
  // A tiny negative rest plus a turn rounds to the turn itself.
  return rest + TURN < TURN ? rest + TURN : 0;
}

/** The same bearing in [0, 360). `positiveDegrees(-1)` is 359. */
export function positiveDegrees(degrees: number): number {
  const rest = degrees % 360;
  if (rest >= 0) return rest;
  return rest + 360 < 360 ? rest + 360 : 0;
}

/** The same angle in (-180, 180], for differences of bearings. `signedDegrees(350)` is -10. */
export function signedDegrees(degrees: number): number {
  const positive = positiveDegrees(degrees);
  return positive > 180 ? positive - 360 : positive;
}

/** Plane direction (anticlockwise from east) from a bearing (clockwise from true north), in [0, 2 pi). */
export function directionFromBearing(bearingRadians: number): number {
  return positiveRadians(Math.PI / 2 - bearingRadians);
}

/** Bearing (clockwise from true north) from a plane direction (anticlockwise from east), in [0, 2 pi). */
export function bearingFromDirection(directionRadians: number): number {
  return positiveRadians(Math.PI / 2 - directionRadians);
}
