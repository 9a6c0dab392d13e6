import type { Instant } from './flight-clock.ts';

/** Seconds the wall clock gained on the monotonic one since the last comparison; negative when it fell back. */
export type ClockReport = { readonly kind: 'together' } | { readonly kind: 'apart'; readonly gainedSeconds: number };

const COMPARE_SECONDS = 1;
const APART_SECONDS = 1;

/**
 * Compares the two clocks once a second. The monotonic clock stops in sleep and the wall clock can be set, so when
 * they part by a second no age can be told until a fresh fix.
 *
 * Feed it every tick; it answers null when less than a second has passed since it compared. Ten minutes of sleep
 * are reported as 600 s apart.
 */
export function createClockWatch(): (instant: Instant) => ClockReport | null {
  let compared: Instant | null = null;
  return (instant) => {
    if (compared === null) {
      compared = instant;
      return null;
    }
    const wallSeconds = (instant.wallMilliseconds - compared.wallMilliseconds) / 1000;
    const monotonicSeconds = instant.atSeconds - compared.atSeconds;
    const gainedSeconds = wallSeconds - monotonicSeconds;
    const apart = Math.abs(gainedSeconds) >= APART_SECONDS;
    if (!apart && monotonicSeconds < COMPARE_SECONDS) return null;
    compared = instant;
    return apart ? { kind: 'apart', gainedSeconds } : { kind: 'together' };
  };
}
