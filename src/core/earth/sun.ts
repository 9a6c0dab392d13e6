import { getPosition, getTimes } from 'suncalc';
import { radiansFromDegrees } from '../units/angle.ts';
import type { GeodeticPoint } from './site-frame.ts';

/** A direction in the sky as seen from a place. */
export interface SkyDirection {
  /** Clockwise from true north, in [0, 2 pi). */
  readonly azimuthRadians: number;
  /** Above the horizon. */
  readonly elevationRadians: number;
}

/** A solar day, around the sun's highest stand. */
export interface SunDay {
  readonly noonMilliseconds: number;
  /** Upper limb on the horizon; null on a polar day or in polar night. */
  readonly riseMilliseconds: number | null;
  readonly setMilliseconds: number | null;
  /** Civil twilight: centre 6 degrees below the horizon; null when the sun does not come there. */
  readonly dawnMilliseconds: number | null;
  readonly duskMilliseconds: number | null;
  readonly kind: 'day and night' | 'polar day' | 'polar night';
}

/**
 * Where the sun stands: suncalc 2 (Meeus 1998, ch. 25), refraction of a standard atmosphere inside. Within 0.02
 * degrees of astronomy-engine above the horizon; below it refraction stays at the horizon's 0.48 degrees.
 *
 * Worked: 39.742476 N 105.1786 W, 2003-10-17 19:30:30 UTC is azimuth 194.340, elevation 39.888 degrees
 * (Reda and Andreas, NREL/TP-560-34302, table A5.1).
 *
 * @throws RangeError for a point off the globe or a value that is not finite
 */
export function sunAt(point: GeodeticPoint, epochMilliseconds: number): SkyDirection {
  check(point, epochMilliseconds);
  const { azimuth, altitude } = getPosition(new Date(epochMilliseconds), point.latitudeDegrees, point.longitudeDegrees);
  return { azimuthRadians: radiansFromDegrees(azimuth), elevationRadians: radiansFromDegrees(altitude) };
}

/**
 * Rise, set and civil twilight of the solar day that holds an instant (solar midnight to solar midnight), at the
 * level of the horizon; within 60 s of astronomy-engine. What does not happen is null, and `kind` says why.
 *
 * @throws RangeError for a point off the globe or a value that is not finite
 */
export function sunDay(point: GeodeticPoint, epochMilliseconds: number): SunDay {
  check(point, epochMilliseconds);
  const times = getTimes(new Date(epochMilliseconds), point.latitudeDegrees, point.longitudeDegrees);
  const kind = times.alwaysUp === true ? 'polar day' : times.alwaysDown === true ? 'polar night' : 'day and night';
  return {
    noonMilliseconds: times.solarNoon.getTime(),
    riseMilliseconds: times.sunrise?.getTime() ?? null,
    setMilliseconds: times.sunset?.getTime() ?? null,
    dawnMilliseconds: times.dawn?.getTime() ?? null,
    duskMilliseconds: times.dusk?.getTime() ?? null,
    kind,
  };
}

/** The angle between two directions, 0 to pi, accurate for small ones too (haversine). */
export function separationRadians(one: SkyDirection, other: SkyDirection): number {
  const up = Math.sin((one.elevationRadians - other.elevationRadians) / 2);
  const across = Math.sin((one.azimuthRadians - other.azimuthRadians) / 2);
  const square = up * up + Math.cos(one.elevationRadians) * Math.cos(other.elevationRadians) * across * across;
  return 2 * Math.asin(Math.min(1, Math.sqrt(square)));
}

function check(point: GeodeticPoint, epochMilliseconds: number): void {
  if (!(Math.abs(point.latitudeDegrees) <= 90)) {
    throw new RangeError(`latitudeDegrees must lie within -90 and 90, not ${point.latitudeDegrees}`);
  }
  if (!Number.isFinite(point.longitudeDegrees)) throw new RangeError(`longitudeDegrees must be finite, not ${point.longitudeDegrees}`);
  if (!Number.isFinite(epochMilliseconds)) throw new RangeError(`epochMilliseconds must be finite, not ${epochMilliseconds}`);
}
