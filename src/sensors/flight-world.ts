import type { FlightClock } from './flight-clock.ts';
import type { PositionSource } from './position-source.ts';

/** What a flight takes place in: a clock and positions that belong together. */
export interface FlightWorld {
  readonly clock: FlightClock;
  readonly position: PositionSource;
  /** Tells each movement of the true smoke valve, where the world knows it; the returned function ends it. */
  followSmoke(listener: (smoke: 'on' | 'off') => void): () => void;
  /** Seconds of flight in a second of the room; null where that is no choice. */
  readonly speed: { read(): number; write(speed: number): void } | null;
}

/** Rehearsals and recordings run this much faster than the room at most. */
export const FASTEST = 20;
