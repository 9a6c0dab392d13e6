import { windAt } from './air-track.ts';
import type { ShipDebrief } from './ship-debrief.ts';

/** What a flight did from moment to moment, flat arrays of one length a second apart; NaN where it is not known. */
export interface FlightSeries {
  /** Flight time. */
  readonly atSeconds: Float64Array;
  /** From the stroke's line, right positive; known under smoke alone. */
  readonly offLineMetres: Float64Array;
  readonly trueAirspeedMetresPerSecond: Float64Array;
  readonly windSpeedMetresPerSecond: Float64Array;
  /** Above the ellipsoid, as the receiver gave it. */
  readonly heightMetres: Float64Array;
}

const STEP_SECONDS = 1;
/** A sample counts for a moment this near. */
const NEAR_SECONDS = 0.75;
/** A receiver's height counts until the next one, and no longer than this. */
const HEIGHT_SECONDS = 5;

/**
 * The flight from second to second, between two flight times.
 *
 * @returns null without a track
 */
export function flightSeries({ log, strokes, air }: ShipDebrief, fromSeconds: number, toSeconds: number): FlightSeries | null {
  const { wind, events, times } = log;
  if (wind === null || air === null || !(toSeconds > fromSeconds)) return null;
  const count = Math.floor((toSeconds - fromSeconds) / STEP_SECONDS) + 1;
  const atSeconds = Float64Array.from({ length: count }, (_, index) => fromSeconds + index * STEP_SECONDS);
  const unknown = (): Float64Array => new Float64Array(count).fill(Number.NaN);
  const [offLineMetres, trueAirspeedMetresPerSecond, windSpeedMetresPerSecond, heightMetres] = [unknown(), unknown(), unknown(), unknown()];
  const indexOf = (seconds: number): number => Math.round((seconds - fromSeconds) / STEP_SECONDS);
  for (const { samples } of strokes) {
    for (const { atSeconds: seconds, crossTrackMetres } of samples) {
      const index = indexOf(seconds);
      if (index >= 0 && index < count && Math.abs(atSeconds[index]! - seconds) < NEAR_SECONDS) offLineMetres[index] = crossTrackMetres;
    }
  }
  const [first, last] = [air.atSeconds[0] ?? Infinity, air.atSeconds.at(-1) ?? -Infinity];
  for (let index = 0; index < count; index += 1) {
    const seconds = atSeconds[index]!;
    if (seconds < first || seconds > last) continue;
    const found = windAt(wind, seconds);
    trueAirspeedMetresPerSecond[index] = found.airspeedMetresPerSecond;
    windSpeedMetresPerSecond[index] = Math.hypot(found.eastMetresPerSecond, found.northMetresPerSecond);
  }
  for (const [at, event] of events.entries()) {
    if (event.kind !== 'fixReceived' || event.fix.altitudeMetres === null) continue;
    const begin = Math.max(0, indexOf(times[at]!));
    for (let index = begin; index < Math.min(count, begin + HEIGHT_SECONDS); index += 1) heightMetres[index] = event.fix.altitudeMetres;
  }
  return { atSeconds, offLineMetres, trueAirspeedMetresPerSecond, windSpeedMetresPerSecond, heightMetres };
}
