import type { Matrix } from './matrix.ts';

/**
 * The flight's state as a Gaussian. `mean` holds ten numbers and `covariance` is 10 x 10, row-major, in the order of
 * {@link STATE}: position in the site frame, direction of flight through the air, true airspeed, turn rate, wind
 * (blowing towards), the drift of the air since the datum, and the airspeed that this aircraft is usually flown at.
 */
export interface Estimate {
  /** When it holds, monotonic. */
  readonly atSeconds: number;
  readonly mean: readonly number[];
  readonly covariance: Matrix;
}

/** Where each quantity stands in the mean; metres, radians, seconds. */
export const STATE = {
  east: 0,
  north: 1,
  direction: 2,
  airspeed: 3,
  turnRate: 4,
  windEast: 5,
  windNorth: 6,
  driftEast: 7,
  driftNorth: 8,
  usualAirspeed: 9,
} as const;

export const STATE_SIZE = 10;

/** A variance out of the covariance, never negative. */
export function variance(estimate: Estimate, index: number): number {
  return Math.max(0, estimate.covariance[index * STATE_SIZE + index]!);
}
