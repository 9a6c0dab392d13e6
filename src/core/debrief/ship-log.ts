import type { FlightEvent } from '../guidance/flight-event.ts';
import type { FlightSetup } from '../guidance/flight-setup.ts';
import { strokesAsFlown } from './strokes-as-flown.ts';
import { flightTimes } from './flight-time.ts';
import { positionsFromEvents } from './flown-position.ts';
import { type SmoothTrack, smoothTrack } from './smooth-track.ts';
import { windHistory, type WindHistory } from './wind-history.ts';

/** What a log holds, before it is replayed: enough to draw and to scrub. */
export interface ShipLog {
  readonly setup: FlightSetup;
  readonly events: readonly FlightEvent[];
  /** Of the events, see `flightTimes`. */
  readonly times: Float64Array;
  /** UTC at flight time 0: what the wall clock showed, its median over the log. */
  readonly zeroMilliseconds: number;
  readonly track: SmoothTrack;
  /** Null when the aircraft never moved at flying speed. */
  readonly wind: WindHistory | null;
}

/** A forecast's wind is wrong by this much in each component. */
export const FORECAST_SIGMA_METRES_PER_SECOND = 5;
/** A pilot's mean airspeed is off the planned one by this share. */
const AIRSPEED_SIGMA_SHARE = 0.05;

/**
 * A log made ready to look at: positions smoothed over the whole flight, wind and airspeed found from them.
 *
 * @returns null for events without the start of a flight
 */
export function shipLog(events: readonly FlightEvent[]): ShipLog | null {
  const start = events.find((event) => event.kind === 'flightStarted');
  if (start === undefined) return null;
  const { setup } = start;
  const times = flightTimes(events);
  const track = smoothTrack(positionsFromEvents(events, times, setup));
  const airspeedMetresPerSecond = setup.trueAirspeedMetresPerSecond;
  const wind = windHistory(track, {
    wind: setup.forecastWind,
    windSigmaMetresPerSecond: FORECAST_SIGMA_METRES_PER_SECOND,
    airspeedMetresPerSecond,
    airspeedSigmaMetresPerSecond: AIRSPEED_SIGMA_SHARE * airspeedMetresPerSecond,
  });
  return { setup: { ...setup, strokes: strokesAsFlown(setup, events) }, events, times, zeroMilliseconds: zeroOf(events, times), track, wind };
}

/** So many events tell the median as well as all of them. */
const ZERO_SAMPLES = 501;

function zeroOf(events: readonly FlightEvent[], times: Float64Array): number {
  const count = Math.min(ZERO_SAMPLES, events.length);
  const zeros = Float64Array.from({ length: count }, (_, sample) => {
    const index = Math.floor((sample * events.length) / count);
    return events[index]!.wallMilliseconds - times[index]! * 1000;
  }).sort();
  return zeros[count >> 1] ?? 0;
}
