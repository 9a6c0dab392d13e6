/** A moment on both clocks: monotonic seconds since the flight began, and the wall clock's own reading. */
export interface Instant {
  readonly atSeconds: number;
  readonly wallMilliseconds: number;
}

/** The clock of a flight; a rehearsal's may run faster than the room's. */
export interface FlightClock {
  now(): Instant;
  /** Calls at every tick, ten a second of flight; the returned function ends it. */
  everyTick(listener: (instant: Instant) => void): () => void;
}

/** Spacing of ticks: a cue is late by this at most. */
export const TICK_MILLISECONDS = 100;

/**
 * The device's own clocks.
 *
 * @param startSeconds monotonic time to go on from: the last logged one when a flight is resumed, else 0. The time
 * in between is then told by the wall clock alone, as after a sleep.
 */
export function createDeviceClock(startSeconds: number): FlightClock {
  const startedAtMilliseconds = performance.now();
  const now = (): Instant => ({
    atSeconds: startSeconds + (performance.now() - startedAtMilliseconds) / 1000,
    wallMilliseconds: Date.now(),
  });
  return {
    now,
    everyTick(listener) {
      const timer = setInterval(() => listener(now()), TICK_MILLISECONDS);
      return () => clearInterval(timer);
    },
  };
}
