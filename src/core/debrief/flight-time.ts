import type { FlightEvent } from '../guidance/flight-event.ts';

/** A wall clock ahead by up to this much is a sleep of the page; by more, or behind, somebody set the clock. */
const LONGEST_SLEEP_SECONDS = 900;
const APART_SECONDS = 1;

/**
 * Times of a log's events on a clock that did not stop: the monotonic time stands still while a tablet sleeps, so what
 * the wall clock then gains is added to everything after, as the guidance does. Never runs backward. One entry for
 * each event.
 */
export function flightTimes(events: readonly FlightEvent[]): Float64Array {
  const times = new Float64Array(events.length);
  let sleptSeconds = 0;
  let latestSeconds = -Infinity;
  let wallMilliseconds: number | null = null;
  events.forEach((event, index) => {
    const monotonicSeconds = Math.max(event.atSeconds, latestSeconds);
    if (wallMilliseconds !== null) {
      const gapSeconds = (event.wallMilliseconds - wallMilliseconds) / 1000 - (monotonicSeconds - latestSeconds);
      if (gapSeconds > APART_SECONDS && gapSeconds <= LONGEST_SLEEP_SECONDS) sleptSeconds += gapSeconds;
    }
    latestSeconds = monotonicSeconds;
    wallMilliseconds = event.wallMilliseconds;
    times[index] = monotonicSeconds + sleptSeconds;
  });
  return times;
}
