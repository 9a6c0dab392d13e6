import type { WatchedTurns } from './turns-watched.ts';

/** What is known of the receiver's stamps so far. */
export interface StampTrust {
  /** Arrival less stamp at the last fix, on the wall clock; null before the first stamped fix. */
  readonly lastAgeSeconds: number | null;
  /** Whether that age was like the one before it. */
  readonly steady: boolean;
  /** The stamp less the monotonic clock, at the last stamped fix. */
  readonly stampLessFlightSeconds?: number;
  /** An age that was believed, and how far the stamps then stood from the monotonic clock; absent before the first. */
  readonly anchor?: { readonly ageSeconds: number; readonly stampLessFlightSeconds: number };
  /** How far this device's clock is known to be ahead of the receiver's; 0 where it is left out. */
  readonly clockAheadSeconds?: number;
  /** The same as it is now, since the clock may have been set or run wrong meanwhile; for telling it. */
  readonly aheadNowSeconds?: number;
  /** Set once the flight has shown that stamps so old are true: the positions are that late. */
  readonly lateSeconds?: number;
  /** What the turns say of the time that is believed. */
  readonly turns?: WatchedTurns | undefined;
  /** Of a doubt that a turn has settled: how late positions would be by the account that was not taken. */
  readonly otherSeconds?: number;
  /** How many fixes in a row seemed held up: one or two may be, then the stamps have moved. */
  readonly heldUpCount?: number;
}
