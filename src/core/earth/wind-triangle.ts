import { positiveRadians, signedRadians } from '../units/angle.ts';
import { type WindVector, windSpeedMetresPerSecond } from './wind-vector.ts';

/** How the aircraft moves over the ground. */
export interface GroundMotion {
  /** Clockwise from true north, in [0, 2 pi). */
  readonly trackRadians: number;
  readonly groundSpeedMetresPerSecond: number;
}

/** What to fly to make good a course. */
export interface CourseHeld {
  readonly headingRadians: number;
  /** Heading less course, positive to the right. */
  readonly correctionRadians: number;
  readonly groundSpeedMetresPerSecond: number;
}

/**
 * Track and ground speed from heading, true airspeed and wind; exact.
 * Heading 090 at 120 kt in a wind from 270 at 20 kt makes 140 kt (FAA-H-8083-25C, fig. 16-13).
 */
export function groundMotion(headingRadians: number, trueAirspeedMetresPerSecond: number, wind: WindVector): GroundMotion {
  const east = trueAirspeedMetresPerSecond * Math.sin(headingRadians) + wind.eastMetresPerSecond;
  const north = trueAirspeedMetresPerSecond * Math.cos(headingRadians) + wind.northMetresPerSecond;
  return { trackRadians: positiveRadians(Math.atan2(east, north)), groundSpeedMetresPerSecond: Math.hypot(east, north) };
}

/**
 * Heading and ground speed that hold a course over the ground; exact.
 * Course 090 at 120 kt in a wind from 045 at 40 kt wants 13.633 degrees to the left and makes 88.335 kt
 * (FAA-H-8083-25C, figs. 16-20 to 16-23).
 *
 * @returns null when the wind is too strong to hold the course or to make any way along it
 */
export function courseHeld(courseRadians: number, trueAirspeedMetresPerSecond: number, wind: WindVector): CourseHeld | null {
  if (!(trueAirspeedMetresPerSecond > 0 && trueAirspeedMetresPerSecond < Infinity)) {
    throw new RangeError(`trueAirspeedMetresPerSecond must be above 0, not ${trueAirspeedMetresPerSecond}`);
  }
  if (!Number.isFinite(courseRadians) || !Number.isFinite(windSpeedMetresPerSecond(wind))) {
    throw new RangeError('course and wind must be finite');
  }
  const along = wind.eastMetresPerSecond * Math.sin(courseRadians) + wind.northMetresPerSecond * Math.cos(courseRadians);
  const toRight = wind.eastMetresPerSecond * Math.cos(courseRadians) - wind.northMetresPerSecond * Math.sin(courseRadians);
  const sine = -toRight / trueAirspeedMetresPerSecond;
  if (Math.abs(sine) > 1) return null;
  const correctionRadians = Math.asin(sine);
  const groundSpeedMetresPerSecond = trueAirspeedMetresPerSecond * Math.cos(correctionRadians) + along;
  if (groundSpeedMetresPerSecond <= 0) return null;
  return {
    headingRadians: positiveRadians(courseRadians + correctionRadians),
    correctionRadians: signedRadians(correctionRadians),
    groundSpeedMetresPerSecond,
  };
}
