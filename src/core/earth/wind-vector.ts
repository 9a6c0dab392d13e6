import { bearingFromDirection, directionFromBearing, positiveRadians } from '../units/angle.ts';

/** Air moving over the ground: metres per second TOWARDS east and north, so that drift is wind times time. */
export interface WindVector {
  readonly eastMetresPerSecond: number;
  readonly northMetresPerSecond: number;
}

/** A wind as the trade speaks of it. */
export interface WindFrom {
  /** Where it blows FROM, clockwise from true north. */
  readonly fromRadians: number;
  /** 0 or more. */
  readonly speedMetresPerSecond: number;
}

/** No wind. */
export const CALM: WindVector = { eastMetresPerSecond: 0, northMetresPerSecond: 0 };

/**
 * The vector of a wind; exact. A wind from the west (3 pi / 2) at 10 m/s is 10 east, 0 north.
 * Inverse: {@link windFromVector}.
 *
 * @throws RangeError for a negative speed or a value that is not finite
 */
export function windVectorFrom({ fromRadians, speedMetresPerSecond }: WindFrom): WindVector {
  if (!Number.isFinite(fromRadians)) throw new RangeError(`fromRadians must be finite, not ${fromRadians}`);
  if (!(speedMetresPerSecond >= 0 && speedMetresPerSecond < Infinity)) {
    throw new RangeError(`speedMetresPerSecond must be 0 or more, not ${speedMetresPerSecond}`);
  }
  const towards = directionFromBearing(fromRadians + Math.PI);
  return {
    eastMetresPerSecond: speedMetresPerSecond * Math.cos(towards),
    northMetresPerSecond: speedMetresPerSecond * Math.sin(towards),
  };
}

/** Where a wind blows from, in [0, 2 pi), and how fast; a calm is from 0 at 0. */
export function windFromVector(wind: WindVector): WindFrom {
  const speedMetresPerSecond = windSpeedMetresPerSecond(wind);
  if (speedMetresPerSecond === 0) return { fromRadians: 0, speedMetresPerSecond: 0 };
  const towards = Math.atan2(wind.northMetresPerSecond, wind.eastMetresPerSecond);
  return { fromRadians: positiveRadians(bearingFromDirection(towards) + Math.PI), speedMetresPerSecond };
}

/** How fast a wind blows. */
export function windSpeedMetresPerSecond(wind: WindVector): number {
  return Math.hypot(wind.eastMetresPerSecond, wind.northMetresPerSecond);
}
