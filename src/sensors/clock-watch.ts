import type { Instant } from './flight-clock.ts';

/** Seconds the wall clock gained on the monotonic one since the last comparison; negative when it fell back. */
export type ClockReport = { readonly kind: 'together' } | { readonly kind: 'parted'; readonly gainedSeconds: number };

const COMPARE_SECONDS = 1;
const PARTED_SECONDS = 1;

/**
 * Compares the two clocks once a second. The monotonic clock stops in sleep and the wall clock can be set, so when
 * they part by a second no age can be told until a fresh fix.
 *
 * Feed it every tick; it answers null when less than a second has passed since it compared. Ten minutes of sleep
 * are reported as parted by 600 s.
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
    const parted = Math.abs(gainedSeconds) >= PARTED_SECONDS;
    if (!parted && monotonicSeconds < COMPARE_SECONDS) return null;
    compared = instant;
    return parted ? { kind: 'parted', gainedSeconds } : { kind: 'together' };
  };
}
