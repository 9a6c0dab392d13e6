import type { WindVector } from '../earth/wind-vector.ts';
import { positiveRadians } from '../units/angle.ts';
import { geometricCircle } from './circle-fit.ts';

/** A steady leg as a satellite receiver shows it. */
export interface GroundLeg {
  /** Clockwise from true north. */
  readonly trackRadians: number;
  readonly groundSpeedMetresPerSecond: number;
}

/** True airspeed and wind that explain the legs. */
export interface GpsWind {
  readonly trueAirspeedMetresPerSecond: number;
  readonly wind: WindVector;
  /** What was flown on each leg, clockwise from true north, in [0, 2 pi). */
  readonly headingsRadians: readonly number[];
}

/** Four or more legs: how well they agree. */
export interface GpsWindFit extends GpsWind {
  /** Sample standard deviation (n - 1) of the airspeeds of every three legs; 0 for exactly three legs. */
  readonly airspeedDeviationMetresPerSecond: number;
}

/**
 * True airspeed and wind from three legs at one unknown airspeed in one unknown wind: the ground velocities lie on a
 * circle about the wind (D. Gray 1998). Exact.
 *
 * Worked: 140, 112, 120 kt on 192, 283, 020 is 129.9985 kt in a wind from 314.758 at 20.633 kt.
 *
 * @returns null when the legs lie on a line, as two equal legs do
 */
export function windFromThreeLegs(legs: readonly [GroundLeg, GroundLeg, GroundLeg]): GpsWind | null {
  const [first, second, third] = legs.map(velocityOf);
  if (first === undefined || second === undefined || third === undefined) return null;
  // Perpendicular bisectors, with the first velocity as origin so that nothing large cancels.
  const bx = second.x - first.x;
  const by = second.y - first.y;
  const cx = third.x - first.x;
  const cy = third.y - first.y;
  const cross = 2 * (bx * cy - by * cx);
  const scale = (Math.abs(bx) + Math.abs(by)) * (Math.abs(cx) + Math.abs(cy));
  if (!(Math.abs(cross) > 1e-9 * scale)) return null;
  const x = (cy * (bx * bx + by * by) - by * (cx * cx + cy * cy)) / cross;
  const y = (bx * (cx * cx + cy * cy) - cx * (bx * bx + by * by)) / cross;
  return explained({ centreX: first.x + x, centreY: first.y + y, radius: Math.hypot(x, y) }, legs);
}

/**
 * True airspeed and wind from four legs: the mean of the solutions of every three (the test pilots' school's sheet).
 * Legs that no three of which lie on a line.
 *
 * Worked: 178, 185, 188, 184 kt on 178, 082, 355, 265 is 183.7267 kt with a deviation of 0.8271 kt.
 *
 * @returns null when any three legs lie on a line
 */
export function windFromFourLegs(legs: readonly [GroundLeg, GroundLeg, GroundLeg, GroundLeg]): GpsWindFit | null {
  const [a, b, c, d] = legs;
  const solutions = (
    [
      [a, b, c],
      [a, b, d],
      [a, c, d],
      [b, c, d],
    ] as const
  ).map((three) => windFromThreeLegs(three));
  const found = solutions.filter((each) => each !== null);
  if (found.length < solutions.length) return null;
  const airspeeds = found.map((each) => each.trueAirspeedMetresPerSecond);
  const trueAirspeed = mean(airspeeds);
  const centre = {
    centreX: mean(found.map((each) => each.wind.eastMetresPerSecond)),
    centreY: mean(found.map((each) => each.wind.northMetresPerSecond)),
    radius: trueAirspeed,
  };
  const squares = airspeeds.reduce((sum, each) => sum + (each - trueAirspeed) ** 2, 0);
  return { ...explained(centre, legs), airspeedDeviationMetresPerSecond: Math.sqrt(squares / (found.length - 1)) };
}

/**
 * True airspeed and wind from three or more legs or fixes of a turn: the geometric circle through the velocities.
 *
 * @returns null when they lie on a line, or when the fit does not converge
 */
export function windFromLegs(legs: readonly GroundLeg[]): GpsWind | null {
  const circle = geometricCircle(legs.map(velocityOf));
  return circle === null || !circle.converged ? null : explained(circle, legs);
}

/**
 * True airspeed and wind speed from ground speeds alone, on three HEADINGS 120 degrees apart. The two roots cannot be
 * told apart from the speeds; the greater is taken for the airspeed.
 *
 * @returns null when no airspeed and wind give such speeds
 */
export function windFromThreeSpeeds(
  groundSpeedsMetresPerSecond: readonly [number, number, number],
): { readonly trueAirspeedMetresPerSecond: number; readonly windSpeedMetresPerSecond: number } | null {
  const squares = groundSpeedsMetresPerSecond.map((speed) => speed * speed);
  const meanSquare = mean(squares);
  if (!(meanSquare > 0 && meanSquare < Infinity)) return null;
  const spread = squares.reduce((sum, square) => sum + (square / meanSquare - 1) ** 2, 0) / 6;
  const inside = 0.25 - spread;
  // Rounding of printed speeds may leave a wind equal to the airspeed a hair outside.
  if (inside < -1e-9) return null;
  const greater = 0.5 + Math.sqrt(Math.max(0, inside));
  return {
    trueAirspeedMetresPerSecond: Math.sqrt(meanSquare * greater),
    windSpeedMetresPerSecond: Math.sqrt((meanSquare * spread) / greater),
  };
}

function velocityOf({ trackRadians, groundSpeedMetresPerSecond }: GroundLeg): { x: number; y: number } {
  if (!Number.isFinite(trackRadians) || !(groundSpeedMetresPerSecond >= 0 && groundSpeedMetresPerSecond < Infinity)) {
    throw new RangeError(`a leg needs a track and a speed, not ${trackRadians} rad at ${groundSpeedMetresPerSecond} m/s`);
  }
  return { x: groundSpeedMetresPerSecond * Math.sin(trackRadians), y: groundSpeedMetresPerSecond * Math.cos(trackRadians) };
}

function explained(circle: { centreX: number; centreY: number; radius: number }, legs: readonly GroundLeg[]): GpsWind {
  return {
    trueAirspeedMetresPerSecond: circle.radius,
    wind: { eastMetresPerSecond: circle.centreX, northMetresPerSecond: circle.centreY },
    headingsRadians: legs.map((leg) => {
      const velocity = velocityOf(leg);
      return positiveRadians(Math.atan2(velocity.x - circle.centreX, velocity.y - circle.centreY));
    }),
  };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
