import type { SkyDirection } from '../earth/sun.ts';
import { positiveRadians, radiansFromDegrees, signedRadians } from '../units/angle.ts';

/** How a device is held, in the angles of the W3C Device Orientation specification. */
export interface DeviceAngles {
  /** About the upright, anticlockwise as seen from above, from north. */
  readonly alphaDegrees: number;
  /** About the device's own right: 0 flat, 90 upright with its screen towards the eye. */
  readonly betaDegrees: number;
  /** About the device's own top. */
  readonly gammaDegrees: number;
}

/** Within this of straight up or down the back points at no azimuth worth telling. */
const STEEPEST_RADIANS = radiansFromDegrees(85);

/**
 * Where the back of a device points, as a hand aims a camera at the sky; null too near straight up or down for an
 * azimuth. The azimuth is from the same north as alpha (on tablets and phones: magnetic).
 *
 * W3C Device Orientation Event Specification, section A.1 (worked example "compass heading"): the axis out of the
 * back, turned by Z-X'-Y'' intrinsic rotations, has
 * `east = -cos a sin g - sin a sin b cos g`, `north = -sin a sin g + cos a sin b cos g`, `up = -cos b cos g`.
 *
 * Worked: held upright (beta 90) facing north, azimuth 0 and elevation 0; beta 125, elevation 35.
 *
 * @throws RangeError for an angle that is not finite
 */
export function lookFromDevice({ alphaDegrees, betaDegrees, gammaDegrees }: DeviceAngles): SkyDirection | null {
  for (const [name, value] of Object.entries({ alphaDegrees, betaDegrees, gammaDegrees })) {
    if (!Number.isFinite(value)) throw new RangeError(`${name} must be finite, not ${value}`);
  }
  const [a, b, g] = [alphaDegrees, betaDegrees, gammaDegrees].map(radiansFromDegrees) as [number, number, number];
  const east = -Math.cos(a) * Math.sin(g) - Math.sin(a) * Math.sin(b) * Math.cos(g);
  const north = -Math.sin(a) * Math.sin(g) + Math.cos(a) * Math.sin(b) * Math.cos(g);
  const elevationRadians = Math.atan2(-Math.cos(b) * Math.cos(g), Math.hypot(east, north));
  if (Math.abs(elevationRadians) > STEEPEST_RADIANS) return null;
  return { azimuthRadians: positiveRadians(Math.atan2(east, north)), elevationRadians };
}

/** What to do to look from one direction to another. */
export interface LookChange {
  /** Turn by this, right positive, in (-pi, pi]. */
  readonly rightRadians: number;
  /** Raise by this; negative is lower. */
  readonly upRadians: number;
  /** Between the two directions. */
  readonly apartRadians: number;
}

/** From where one looks to where one should. Looking north, level, for something east, 30 degrees up: right 90, up 30. */
export function lookChange(now: SkyDirection, wanted: SkyDirection): LookChange {
  const rightRadians = signedRadians(wanted.azimuthRadians - now.azimuthRadians);
  // Haversine: sharp where the angle is small, which is where it matters.
  const half =
    Math.sin((wanted.elevationRadians - now.elevationRadians) / 2) ** 2 +
    Math.cos(now.elevationRadians) * Math.cos(wanted.elevationRadians) * Math.sin(rightRadians / 2) ** 2;
  return {
    rightRadians,
    upRadians: wanted.elevationRadians - now.elevationRadians,
    apartRadians: 2 * Math.asin(Math.min(1, Math.sqrt(half))),
  };
}
