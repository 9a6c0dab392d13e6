import type { WindVector } from '../earth/wind-vector.ts';
import { taubinCircle } from './circle-fit.ts';

/** A velocity over the ground, between two fixes. */
export interface GroundVelocity {
  readonly atSeconds: number;
  readonly eastMetresPerSecond: number;
  readonly northMetresPerSecond: number;
}

/** Wind and airspeed from the velocities of a turn alone. */
export interface CircleWind {
  readonly wind: WindVector;
  readonly airspeedMetresPerSecond: number;
}

export const CIRCLE_WINDOW_SECONDS = 90;
const FEWEST_VELOCITIES = 20;
const SECTORS = 12;
/** Of twelve sectors of heading, this many must have been flown for the circle to be one. */
const FEWEST_SECTORS = 8;
/** Noise on a straight leg makes a small circle of its own; an airspeed this far from the planned one is none. */
const AIRSPEED_SHARE = 0.15;

/**
 * With a steady airspeed the tips of the ground velocities lie on a circle: its middle is the wind, its radius the
 * airspeed. Taubin's fit (IEEE PAMI 13, 1991). It knows no history and no model, so it checks the filter, and stands in
 * for it when the two part.
 *
 * @returns null with fewer than twenty velocities, or when less than two thirds of the headings were flown
 */
export function circleWind(velocities: readonly GroundVelocity[], plannedAirspeedMetresPerSecond: number): CircleWind | null {
  if (velocities.length < FEWEST_VELOCITIES) return null;
  const circle = taubinCircle(velocities.map(({ eastMetresPerSecond, northMetresPerSecond }) => ({ x: eastMetresPerSecond, y: northMetresPerSecond })));
  if (circle === null || Math.abs(circle.radius / plannedAirspeedMetresPerSecond - 1) > AIRSPEED_SHARE) return null;
  const sectors = new Set(
    velocities.map(({ eastMetresPerSecond, northMetresPerSecond }) =>
      Math.floor(((Math.atan2(northMetresPerSecond - circle.centreY, eastMetresPerSecond - circle.centreX) + Math.PI) / (2 * Math.PI)) * SECTORS),
    ),
  );
  if (sectors.size < FEWEST_SECTORS) return null;
  return {
    wind: { eastMetresPerSecond: circle.centreX, northMetresPerSecond: circle.centreY },
    airspeedMetresPerSecond: circle.radius,
  };
}

/**
 * How far the velocities lie from the circle of a wind and an airspeed, root of the mean square: a wind that explains them nearly as well as
 * the fitted circle is not contradicted by it, however far its middle is off. Worked: no wind, 50 m/s, seen as 53 and 46: 3.5.
 */
export function circleMisfit(velocities: readonly GroundVelocity[], { wind, airspeedMetresPerSecond }: CircleWind): number {
  const squares = velocities.map(
    ({ eastMetresPerSecond, northMetresPerSecond }) =>
      (Math.hypot(eastMetresPerSecond - wind.eastMetresPerSecond, northMetresPerSecond - wind.northMetresPerSecond) - airspeedMetresPerSecond) ** 2,
  );
  return Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / squares.length);
}
