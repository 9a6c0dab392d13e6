/** What is known of the receiver's stamps so far. */
export interface StampTrust {
  /** Arrival less stamp at the last fix, on the wall clock; null before the first stamped fix. */
  readonly lastAgeSeconds: number | null;
  /** Whether that age was like the one before it. */
  readonly steady: boolean;
}

export interface FixTime {
  /** When the position was true, monotonic. */
  readonly measuredAtSeconds: number;
  readonly source: 'stamp' | 'arrival';
  readonly trust: StampTrust;
}

/**
 * A receiver's position is late by 0.3 to 1 s on a tablet; common practice, no source. Taken where the stamp is
 * missing, absurd, or only repeats the arrival.
 */
export const ASSUMED_LATENCY_SECONDS = 0.6;
const LEAST_AGE_SECONDS = 0.15;
const MOST_AGE_SECONDS = 3;
/** Between two fixes a true stamp's age changes little; a stamp off another clock runs away. */
const STEADY_SECONDS = 0.7;

/**
 * When a fix was measured. The stamp is believed when it lies 0.15 to 3 s before the arrival and its age is steady
 * from fix to fix, or suddenly greater after a steady one: then the fix was held up on its way (out of order, or by a stalled page), and
 * its arrival says nothing. Otherwise the arrival less an assumed latency.
 */
export function fixTime(arrivedAtSeconds: number, arrivedWallMilliseconds: number, stampMilliseconds: number | null, trust: StampTrust): FixTime {
  const byArrival = { measuredAtSeconds: arrivedAtSeconds - ASSUMED_LATENCY_SECONDS, source: 'arrival' as const };
  if (stampMilliseconds === null) return { ...byArrival, trust };
  const ageSeconds = (arrivedWallMilliseconds - stampMilliseconds) / 1000;
  const plausible = ageSeconds >= LEAST_AGE_SECONDS && ageSeconds <= MOST_AGE_SECONDS;
  const olderBySeconds = trust.lastAgeSeconds === null ? Number.NaN : ageSeconds - trust.lastAgeSeconds;
  const steady = Math.abs(olderBySeconds) <= STEADY_SECONDS;
  const heldUp = trust.steady && olderBySeconds > STEADY_SECONDS;
  const next = { lastAgeSeconds: ageSeconds, steady };
  if (!plausible || !(steady || heldUp)) return { ...byArrival, trust: next };
  return { measuredAtSeconds: arrivedAtSeconds - ageSeconds, source: 'stamp', trust: heldUp ? trust : next };
}
