import type { StampTrust } from './stamp-trust.ts';

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
const LEAST_AGE_SECONDS = 0.3;
const MOST_AGE_SECONDS = 3;
/** A steady age beyond this is a receiver that is late, or a clock that is ahead: the stamp alone cannot tell which. */
const SURE_AGE_SECONDS = 1.5;
const HELD_UP_AT_MOST = 2;
/** A stamp so far off is no time of now. */
const DOUBTED_AGE_SECONDS = 30;
/** Between two fixes a true stamp's age changes little; a stamp off another clock runs away. */
const STEADY_SECONDS = 0.7;

/**
 * When a fix was measured. The stamp is believed when it lies 0.3 to 3 s before the arrival and its age is steady
 * from fix to fix, or suddenly greater after a steady one: then the fix was held up on its way (out of order, or by a stalled page), and
 * its arrival says nothing. Otherwise the arrival less an assumed latency. A steady age of more than 1.5 s is believed only
 * once the flight has shown it, see {@link agedDoubtSeconds}.
 */
export function fixTime(arrivedAtSeconds: number, arrivedWallMilliseconds: number, stampMilliseconds: number | null, trust: StampTrust): FixTime {
  const byArrival = { measuredAtSeconds: arrivedAtSeconds - (trust.anchor?.ageSeconds ?? ASSUMED_LATENCY_SECONDS), source: 'arrival' as const };
  if (stampMilliseconds === null) return { ...byArrival, trust };
  const byWallSeconds = (arrivedWallMilliseconds - stampMilliseconds) / 1000 - (trust.clockAheadSeconds ?? 0);
  const ageSeconds = steadierAge(byWallSeconds, stampMilliseconds / 1000 - arrivedAtSeconds, trust.anchor);
  const aheadNowSeconds = (trust.clockAheadSeconds ?? 0) + byWallSeconds - ageSeconds;
  const plausible = ageSeconds >= LEAST_AGE_SECONDS && ageSeconds <= Math.max(MOST_AGE_SECONDS, (trust.lateSeconds ?? 0) + STEADY_SECONDS);
  const olderBySeconds = trust.lastAgeSeconds === null ? Number.NaN : ageSeconds - trust.lastAgeSeconds;
  const steady = Math.abs(olderBySeconds) <= STEADY_SECONDS;
  const heldUpCount = trust.heldUpCount ?? 0;
  const heldUp = trust.steady && olderBySeconds > STEADY_SECONDS && heldUpCount < HELD_UP_AT_MOST;
  const stampLessFlightSeconds = stampMilliseconds / 1000 - arrivedAtSeconds;
  const next: StampTrust = { ...trust, lastAgeSeconds: ageSeconds, steady, heldUpCount: 0, stampLessFlightSeconds, aheadNowSeconds };
  const asBefore = trust.anchor !== undefined && Math.abs(ageSeconds - trust.anchor.ageSeconds) < STEADY_SECONDS;
  const sure = asBefore || ageSeconds <= Math.max(SURE_AGE_SECONDS, (trust.lateSeconds ?? 0) + STEADY_SECONDS);
  if (!plausible || !(heldUp || (steady && sure))) return { ...byArrival, trust: next };
  if (heldUp) return { measuredAtSeconds: arrivedAtSeconds - ageSeconds, source: 'stamp', trust: { ...trust, heldUpCount: heldUpCount + 1 } };
  const anchor = trust.anchor ?? { ageSeconds, stampLessFlightSeconds };
  return { measuredAtSeconds: arrivedAtSeconds - ageSeconds, source: 'stamp', trust: { ...next, anchor } };
}

/** The two accounts of an age part by this before one of them is preferred. */
const APART_AGES_SECONDS = 0.25;

/**
 * A stamp's age by the wall clock, or by the monotonic one since an age that was believed: whichever stayed as it was then. A
 * wall clock that is set or runs wrong leaves a receiver's own stamps as old as ever by the monotonic clock; a sleep, in which
 * that clock stands still, or stamps off the device's own clock leave them as old as ever by the wall clock.
 */
function steadierAge(byWallSeconds: number, stampLessFlightSeconds: number, anchor: StampTrust['anchor']): number {
  if (anchor === undefined) return byWallSeconds;
  const byFlightSeconds = anchor.ageSeconds - (stampLessFlightSeconds - anchor.stampLessFlightSeconds);
  if (Math.abs(byFlightSeconds - byWallSeconds) < APART_AGES_SECONDS) return byWallSeconds;
  return Math.abs(byFlightSeconds - anchor.ageSeconds) < Math.abs(byWallSeconds - anchor.ageSeconds) ? byFlightSeconds : byWallSeconds;
}

/**
 * How much the arrival and the stamp disagree about the age while nobody knows which of them is right: this device's clock is
 * ahead by that, or the positions are late by that. Null when nothing is in doubt; a stamp of another day is no doubt.
 */
export function agedDoubtSeconds({ lastAgeSeconds, steady, anchor, turns, lateSeconds = 0 }: StampTrust): number | null {
  if (lastAgeSeconds === null || !steady) return null;
  // The turn that showed it is still seen to end for so long, and its roll-out before that.
  if (turns?.verdict === 'doubted') return ROLL_OUT_SECONDS + turns.beyondSeconds;
  if (anchor !== undefined && Math.abs(lastAgeSeconds - anchor.ageSeconds) < STEADY_SECONDS) return null;
  // A stamp younger than any position can be says nothing: the positions may be late all the same.
  if (lastAgeSeconds < LEAST_AGE_SECONDS && lastAgeSeconds > -DOUBTED_AGE_SECONDS) return anchor === undefined ? UNKNOWN_LATE_SECONDS : null;
  const beyond = lastAgeSeconds > Math.max(SURE_AGE_SECONDS, lateSeconds + STEADY_SECONDS) && lastAgeSeconds < DOUBTED_AGE_SECONDS;
  return beyond ? lastAgeSeconds - ASSUMED_LATENCY_SECONDS : null;
}

const ROLL_OUT_SECONDS = 4;
/** What an unknown lateness is taken for until a turn shows it. */
const UNKNOWN_LATE_SECONDS = 2.4;

/** A hand of 0.4 to 1 s, a roll, 20 degrees of turn and the second that a track is made of: measured 3.6 to 5.2 s at the desk. */
export const ORDINARY_ONSET_SECONDS = 4.4;

/**
 * The doubt settled by the flight: a turn that was cued shows in the track, by the arrival of its positions, as late as they are
 * late, and a hand later. What one turn leaves open the next one is asked too.
 *
 * @param trust with the turn among those that were watched
 */
export function ageJudged(trust: StampTrust): StampTrust {
  const { lastAgeSeconds, turns, anchor } = trust;
  if (lastAgeSeconds === null || turns === undefined || turns.beyonds.length === 0 || agedDoubtSeconds({ ...trust, turns: undefined }) === null) return trust;
  const shownSeconds = (anchor?.ageSeconds ?? ASSUMED_LATENCY_SECONDS) + mean(turns.beyonds);
  const fits = lastAgeSeconds < LEAST_AGE_SECONDS ? [ASSUMED_LATENCY_SECONDS] : nearestFirst([ASSUMED_LATENCY_SECONDS, lastAgeSeconds], shownSeconds);
  const [best = ASSUMED_LATENCY_SECONDS, other] = fits;
  // A lateness that no account tells is not believed of one turn.
  if (Math.abs(shownSeconds - best) > TOLD_WITHIN_SECONDS) return turns.beyonds.length === 1 ? trust : heldFor(trust, shownSeconds);
  const apartSeconds = other === undefined ? Infinity : Math.abs(shownSeconds - other) - Math.abs(shownSeconds - best);
  return turns.beyonds.length < AGAINST_TURNS && apartSeconds < TOLD_APART_SECONDS / turns.beyonds.length
    ? trust
    : { ...heldFor(trust, best), ...(other === undefined ? {} : { otherSeconds: other }) };
}

/** So many turns settle it whatever they say, or speak against the account that was taken. */
const AGAINST_TURNS = 3;

/** The account of a doubt that was not taken, taken after all where the turns since speak for it: a guess is not kept for good. */
export function ageJudgedAgain(trust: StampTrust): StampTrust {
  const { otherSeconds, turns, anchor } = trust;
  if (otherSeconds === undefined || anchor === undefined || turns === undefined || turns.beyonds.length < AGAINST_TURNS) return trust;
  const shownSeconds = anchor.ageSeconds + mean(turns.beyonds);
  if (Math.abs(shownSeconds - anchor.ageSeconds) - Math.abs(shownSeconds - otherSeconds) < TOLD_APART_SECONDS / AGAINST_TURNS) return trust;
  return { ...heldFor(trust, otherSeconds), otherSeconds: anchor.ageSeconds };
}

/** Positions held to be so late, by what is not younger than any can be: the rest of their seeming age is the clock's. */
function heldFor({ lateSeconds: _before, ...trust }: StampTrust, ageSeconds: number): StampTrust {
  const forgotten = trust.turns === undefined ? {} : { turns: { ...trust.turns, beyonds: [], beyondSeconds: 0, verdict: 'in-time' as const } };
  if (ageSeconds > ASSUMED_LATENCY_SECONDS) return { ...lateBy(trust, ageSeconds), ...forgotten };
  return {
    ...trust,
    ...forgotten,
    ...anchored(trust, ASSUMED_LATENCY_SECONDS),
    lastAgeSeconds: ASSUMED_LATENCY_SECONDS,
    clockAheadSeconds: (trust.clockAheadSeconds ?? 0) + (trust.lastAgeSeconds ?? ASSUMED_LATENCY_SECONDS) - ASSUMED_LATENCY_SECONDS,
  };
}

/** Positions that were found to come so late, whatever their stamps say. */
export function lateBy(trust: StampTrust, lateSeconds: number): StampTrust {
  return {
    ...trust,
    ...anchored(trust, lateSeconds),
    lastAgeSeconds: lateSeconds,
    lateSeconds,
    clockAheadSeconds: (trust.clockAheadSeconds ?? 0) + (trust.lastAgeSeconds ?? lateSeconds) - lateSeconds,
  };
}

/** A turn tells the lateness no better than this: what is as near as that to one whole account is that. */
const TOLD_WITHIN_SECONDS = 1.8;
/** One turn that is nearer to the one account than to the other by less than this leaves it open; two by half of it. */
const TOLD_APART_SECONDS = 1.6;

function nearestFirst(seconds: readonly number[], toSeconds: number): readonly number[] {
  return [...seconds].sort((one, other) => Math.abs(one - toSeconds) - Math.abs(other - toSeconds));
}

function mean(seconds: readonly number[]): number {
  return seconds.reduce((sum, one) => sum + one, 0) / seconds.length;
}

function anchored({ stampLessFlightSeconds }: StampTrust, ageSeconds: number): Pick<StampTrust, 'anchor'> {
  return stampLessFlightSeconds === undefined ? {} : { anchor: { ageSeconds, stampLessFlightSeconds } };
}
