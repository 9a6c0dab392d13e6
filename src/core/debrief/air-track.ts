import type { SitePoint } from '../earth/site-frame.ts';
import type { SmoothTrack } from './smooth-track.ts';
import { NODE_SECONDS, type WindHistory } from './wind-history.ts';

/**
 * A flight in the air-mass frame: where the aircraft was in air that stands still, flat arrays of one length, in
 * rising time. The frame is the site frame at `datumSeconds`.
 */
export interface AirTrack {
  readonly atSeconds: Float64Array;
  readonly airEastMetres: Float64Array;
  readonly airNorthMetres: Float64Array;
  /** Flight direction through the air, anticlockwise from east, in (-pi, pi]. */
  readonly directionRadians: Float64Array;
  readonly airspeedMetresPerSecond: Float64Array;
  /** Positive turning left (anticlockwise). */
  readonly turnRateRadiansPerSecond: Float64Array;
  /** See `SmoothTrack.segmentStarts`. */
  readonly segmentStarts: readonly number[];
}

/** A moment of an air track. */
export interface AirMoment {
  readonly airEastMetres: number;
  readonly airNorthMetres: number;
  readonly directionRadians: number;
}

/** Wind and drift at any time: straight between the nodes, and constant wind before the first and after the last. */
export function windAt(
  history: WindHistory,
  atSeconds: number,
): {
  readonly eastMetresPerSecond: number;
  readonly northMetresPerSecond: number;
  readonly airspeedMetresPerSecond: number;
  readonly driftEastMetres: number;
  readonly driftNorthMetres: number;
} {
  const count = history.atSeconds.length;
  const place = (atSeconds - history.atSeconds[0]!) / NODE_SECONDS;
  const node = Math.min(count - 2, Math.max(0, Math.floor(place)));
  const share = Math.min(1, Math.max(0, place - node));
  const mixed = (values: Float64Array): number => values[node]! * (1 - share) + values[node + 1]! * share;
  const east = mixed(history.windEastMetresPerSecond);
  const north = mixed(history.windNorthMetresPerSecond);
  // The integral of a straight line from the node on, and of a constant beyond the ends.
  const insideSeconds = share * NODE_SECONDS;
  const beyondSeconds = (place - node - share) * NODE_SECONDS;
  return {
    eastMetresPerSecond: east,
    northMetresPerSecond: north,
    airspeedMetresPerSecond: mixed(history.airspeedMetresPerSecond),
    driftEastMetres: history.driftEastMetres[node]! + ((history.windEastMetresPerSecond[node]! + east) / 2) * insideSeconds + east * beyondSeconds,
    driftNorthMetres: history.driftNorthMetres[node]! + ((history.windNorthMetresPerSecond[node]! + north) / 2) * insideSeconds + north * beyondSeconds,
  };
}

/** The drift since the datum. */
export function driftSince(history: WindHistory, datumSeconds: number, atSeconds: number): { readonly eastMetres: number; readonly northMetres: number } {
  const now = windAt(history, atSeconds);
  const datum = windAt(history, datumSeconds);
  return { eastMetres: now.driftEastMetres - datum.driftEastMetres, northMetres: now.driftNorthMetres - datum.driftNorthMetres };
}

/** The track in the air that stood over the site at `datumSeconds`: position less drift, and less `laid`. */
export function airTrack(track: SmoothTrack, history: WindHistory, datumSeconds: number, laid: SitePoint = { eastMetres: 0, northMetres: 0 }): AirTrack {
  const count = track.atSeconds.length;
  const airEastMetres = new Float64Array(count);
  const airNorthMetres = new Float64Array(count);
  const directionRadians = new Float64Array(count);
  const airspeedMetresPerSecond = new Float64Array(count);
  const turnRateRadiansPerSecond = new Float64Array(count);
  const datum = windAt(history, datumSeconds);
  const nodes = history.atSeconds.length;
  const startSeconds = history.atSeconds[0]!;
  const { windEastMetresPerSecond: windEast, windNorthMetresPerSecond: windNorth, driftEastMetres: driftEast, driftNorthMetres: driftNorth } = history;
  for (let index = 0; index < count; index += 1) {
    // As windAt does, without an object for each of a hundred thousand positions.
    const place = (track.atSeconds[index]! - startSeconds) / NODE_SECONDS;
    const node = Math.min(nodes - 2, Math.max(0, Math.floor(place)));
    const share = Math.min(1, Math.max(0, place - node));
    const airEast = windEast[node]! * (1 - share) + windEast[node + 1]! * share;
    const airNorth = windNorth[node]! * (1 - share) + windNorth[node + 1]! * share;
    const insideSeconds = share * NODE_SECONDS;
    const beyondSeconds = (place - node - share) * NODE_SECONDS;
    airEastMetres[index] =
      track.eastMetres[index]! -
      (driftEast[node]! + ((windEast[node]! + airEast) / 2) * insideSeconds + airEast * beyondSeconds - datum.driftEastMetres) -
      laid.eastMetres;
    airNorthMetres[index] =
      track.northMetres[index]! -
      (driftNorth[node]! + ((windNorth[node]! + airNorth) / 2) * insideSeconds + airNorth * beyondSeconds - datum.driftNorthMetres) -
      laid.northMetres;
    const east = track.eastMetresPerSecond[index]! - airEast;
    const north = track.northMetresPerSecond[index]! - airNorth;
    const speedSquared = east * east + north * north;
    directionRadians[index] = Math.atan2(north, east);
    airspeedMetresPerSecond[index] = Math.sqrt(speedSquared);
    const across = east * track.northMetresPerSecondSquared[index]! - north * track.eastMetresPerSecondSquared[index]!;
    // A standing aircraft turns at no rate that means anything.
    turnRateRadiansPerSecond[index] = speedSquared > 100 ? across / speedSquared : 0;
  }
  return {
    atSeconds: track.atSeconds,
    airEastMetres,
    airNorthMetres,
    directionRadians,
    airspeedMetresPerSecond,
    turnRateRadiansPerSecond,
    segmentStarts: track.segmentStarts,
  };
}

/** The last index at or before a time, by halving; -1 before the first. */
export function indexAt(atSeconds: Float64Array, seconds: number): number {
  let low = -1;
  let high = atSeconds.length;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (atSeconds[middle]! <= seconds) low = middle;
    else high = middle;
  }
  return low;
}

/**
 * Where the aircraft was in the air at a time, by the cubic through both neighbours' places and velocities (Hermite);
 * null outside the track and in its gaps.
 */
export function airMomentAt(track: AirTrack, seconds: number): AirMoment | null {
  const index = indexAt(track.atSeconds, seconds);
  if (index < 0) return null;
  const at = track.atSeconds[index]!;
  if (index === track.atSeconds.length - 1 || track.segmentStarts.includes(index + 1)) {
    return seconds === at
      ? { airEastMetres: track.airEastMetres[index]!, airNorthMetres: track.airNorthMetres[index]!, directionRadians: track.directionRadians[index]! }
      : null;
  }
  const span = track.atSeconds[index + 1]! - at;
  const u = (seconds - at) / span;
  const a = (1 + 2 * u) * (1 - u) * (1 - u);
  const b = u * (1 - u) * (1 - u) * span;
  const c = u * u * (3 - 2 * u);
  const d = u * u * (u - 1) * span;
  const along = (places: Float64Array, velocity: (index: number) => number): number =>
    a * places[index]! + b * velocity(index) + c * places[index + 1]! + d * velocity(index + 1);
  const eastVelocity = (which: number): number => track.airspeedMetresPerSecond[which]! * Math.cos(track.directionRadians[which]!);
  const northVelocity = (which: number): number => track.airspeedMetresPerSecond[which]! * Math.sin(track.directionRadians[which]!);
  const east = (1 - u) * eastVelocity(index) + u * eastVelocity(index + 1);
  const north = (1 - u) * northVelocity(index) + u * northVelocity(index + 1);
  return {
    airEastMetres: along(track.airEastMetres, eastVelocity),
    airNorthMetres: along(track.airNorthMetres, northVelocity),
    directionRadians: Math.atan2(north, east),
  };
}
