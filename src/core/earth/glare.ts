import { radiansFromDegrees, signedRadians } from '../units/angle.ts';
import type { SkyDirection } from './sun.ts';

/** The pilot is dazzled by a sun within this of the nose while it stands lower than the second; common practice, no source. */
const GLARE_NOSE_RADIANS = radiansFromDegrees(25);
const GLARE_HIGHEST_RADIANS = radiansFromDegrees(40);
/** The sun's upper limb on the horizon, refraction included. */
export const SUN_UP_RADIANS = radiansFromDegrees(-0.35);

/**
 * Whether a pilot flying a heading has the sun in the eyes: up, under 40 degrees high, and its azimuth within 25
 * degrees of the nose. The nose is counted level with the horizon, so the two limits are of azimuth and of height.
 */
export function isGlare(headingRadians: number, sun: SkyDirection): boolean {
  if (sun.elevationRadians < SUN_UP_RADIANS || sun.elevationRadians >= GLARE_HIGHEST_RADIANS) return false;
  return Math.abs(signedRadians(sun.azimuthRadians - headingRadians)) < GLARE_NOSE_RADIANS;
}
