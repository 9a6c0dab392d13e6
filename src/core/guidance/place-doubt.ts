import { type Estimate, STATE, variance } from '../tracking/estimate.ts';
import type { StampTrust } from '../tracking/stamp-trust.ts';
import type { GroundVelocity } from '../tracking/circle-wind.ts';
import { propagate } from '../tracking/propagate.ts';
import type { Sighting, Tracker } from '../tracking/tracker.ts';
import type { Flight } from './guidance-state.ts';
import { motionOf } from './present.ts';
import type { PlaceDoubt } from './doubted-place.ts';

/** A position begun again farther than this from where the aircraft can be has jumped. */
const JUMPED_METRES = 110;
/** Without a cue the wings are level: an aircraft strays from there by so much at most, unless the pilot flew elsewhere on purpose. */
const UNFORETOLD_METRES_PER_SECOND = 25;
/** Lost from sight in a turn for longer than this, an aircraft may have come round to anywhere: it is told by its speed alone. */
const CAME_ROUND_SECONDS = 15;
/** In minutes no layer changes so much: 2.8 m/s at most in 30 honest flights at the desk, the forecast 20 kt off. */
const ODD_METRES_PER_SECOND = 6;
const KNOWN_PER_LETTER_HEIGHT = 0.1;

/** From one second to the next no aircraft's velocity over the ground changes by more: 17 m/s in a bank of 60 degrees, and noise. */
const STEADY_METRES_PER_SECOND = 40;
const NEXT_SECONDS = 1.6;

const changed = (one: GroundVelocity, other: GroundVelocity): number =>
  Math.hypot(other.eastMetresPerSecond - one.eastMetresPerSecond, other.northMetresPerSecond - one.northMetresPerSecond);

/** The positions went on as an aircraft flies, without a leap between two of them: the filter was wrong, and they were not. */
function wentOn(velocities: readonly GroundVelocity[], sinceSeconds: number): boolean {
  const from = velocities.findLastIndex(({ atSeconds }) => atSeconds <= sinceSeconds);
  return (
    from >= 0 &&
    velocities.slice(from).every((one, index, all) => {
      const next = all[index + 1];
      if (next === undefined) return true;
      return next.atSeconds - one.atSeconds < NEXT_SECONDS && changed(one, next) < STEADY_METRES_PER_SECOND;
    })
  );
}

/** Between two of these times at most one velocity is not known, since the positions leapt there. */
const LEAPT_SECONDS = 2.6;

/**
 * How far the positions leapt since they were last believed, as they show it themselves: from where they are now back by their own
 * velocities, the leap left out. Null where they were not seen all the time.
 */
function leaptMetres(estimate: Estimate, { measuredAtSeconds, eastMetres, northMetres }: Sighting, velocities: readonly GroundVelocity[]): number | null {
  const seen = velocities.slice(
    Math.max(
      0,
      velocities.findLastIndex(({ atSeconds }) => atSeconds <= estimate.atSeconds),
    ),
  );
  const steady = seen.filter((one, index) => {
    const [before, after] = [seen[index - 1], seen[index + 1]];
    return before === undefined || after === undefined || changed(before, one) < STEADY_METRES_PER_SECOND || changed(one, after) < STEADY_METRES_PER_SECOND;
  });
  const [first] = steady;
  const last = steady.at(-1);
  if (first === undefined || last === undefined || first.atSeconds > estimate.atSeconds || measuredAtSeconds - last.atSeconds > NEXT_SECONDS) return null;
  let east = eastMetres - estimate.mean[STATE.east]!;
  let north = northMetres - estimate.mean[STATE.north]!;
  for (const [index, later] of steady.entries()) {
    const sooner = steady[index - 1];
    if (sooner === undefined) continue;
    if (later.atSeconds - sooner.atSeconds > LEAPT_SECONDS) return null;
    const seconds = later.atSeconds - Math.max(sooner.atSeconds, estimate.atSeconds);
    const known = later.atSeconds - sooner.atSeconds < NEXT_SECONDS ? later : middleOf(sooner, later);
    east -= known.eastMetresPerSecond * seconds;
    north -= known.northMetresPerSecond * seconds;
  }
  return Math.hypot(east, north);
}

function middleOf(one: GroundVelocity, other: GroundVelocity): Omit<GroundVelocity, 'atSeconds'> {
  return {
    eastMetresPerSecond: (one.eastMetresPerSecond + other.eastMetresPerSecond) / 2,
    northMetresPerSecond: (one.northMetresPerSecond + other.northMetresPerSecond) / 2,
  };
}

/**
 * The doubt that a filter begun again leaves: the new place against where the old one can have come to.
 *
 * @param before the tracker that was trusted last
 * @param velocities over the ground as the positions show them, this one with them
 */
export function jumpDoubt(flight: Flight, before: Tracker, sighting: Sighting, velocities: readonly GroundVelocity[]): PlaceDoubt | null {
  const { estimate } = before;
  if (estimate === null || wentOn(velocities, estimate.atSeconds - 1)) return null;
  // Seen all the time, positions need no room for where an aircraft may have strayed unseen.
  const leapt = leaptMetres(estimate, sighting, velocities);
  if (leapt !== null && leapt > JUMPED_METRES) return { kind: 'jumped', metres: leapt };
  const gapSeconds = sighting.measuredAtSeconds - estimate.atSeconds;
  const there = propagate(estimate, sighting.measuredAtSeconds, motionOf(flight), false);
  const metres = Math.hypot(there.mean[STATE.east]! - sighting.eastMetres, there.mean[STATE.north]! - sighting.northMetres);
  const turning = flight.commands.findLast(({ fromSeconds }) => fromSeconds <= estimate.atSeconds)?.sense !== 'either';
  const strayed = turning && gapSeconds > CAME_ROUND_SECONDS ? flight.setup.trueAirspeedMetresPerSecond : UNFORETOLD_METRES_PER_SECOND;
  return metres > JUMPED_METRES + strayed * Math.max(0, gapSeconds - 1) ? { kind: 'jumped', metres } : null;
}

/** The doubt of a wind that cannot be, once it is thought to be known. */
export function windDoubt({ setup, tracker: { estimate }, windAverage, smokeCuedAtSeconds }: Flight): PlaceDoubt | null {
  if (estimate === null || windAverage === null || smokeCuedAtSeconds === null || windAverage.seconds < 60) return null;
  const { wind } = windAverage;
  const apart = Math.hypot(estimate.mean[STATE.windEast]! - wind.eastMetresPerSecond, estimate.mean[STATE.windNorth]! - wind.northMetresPerSecond);
  const airspeedOff = Math.abs(estimate.mean[STATE.airspeed]! / setup.trueAirspeedMetresPerSecond - 1);
  return apart > ODD_METRES_PER_SECOND || airspeedOff > 0.25 ? { kind: 'wind-odd' } : null;
}

/** The doubt of a drift that went on unseen while the page slept. */
export function awayDoubt({ awaySeconds, datumAtSeconds, setup, tracker: { estimate }, smokeCuedAtSeconds }: Flight): PlaceDoubt | null {
  if (awaySeconds === 0 || datumAtSeconds === null || estimate === null || smokeCuedAtSeconds === null) return null;
  const metres = Math.sqrt((variance(estimate, STATE.driftEast) + variance(estimate, STATE.driftNorth)) / 2);
  return metres > KNOWN_PER_LETTER_HEIGHT * setup.letterHeightMetres ? { kind: 'away', seconds: awaySeconds, metres } : null;
}

/** The doubt of stamps that look ordinary, once two turns have told the same. */
export function lateDoubt(before: StampTrust, { turns }: StampTrust): PlaceDoubt | null {
  return turns?.verdict === 'late' && before.turns?.verdict !== 'late' ? { kind: 'late', seconds: turns.beyondSeconds } : null;
}

/** In words for the pilot. */
export function doubtWords(doubt: PlaceDoubt): string {
  switch (doubt.kind) {
    case 'jumped':
      return `position jumped ${doubt.metres >= 950 ? `${(doubt.metres / 1000).toFixed(1)} km` : `${Math.round(doubt.metres / 10) * 10} m`}`;
    case 'wind-odd':
      return 'wind odd';
    case 'late':
      return `positions late by ${doubt.seconds.toFixed(0)} s, or your turns: go on if it was the hand`;
    case 'away':
      return `away ${Math.round(doubt.seconds)} s, place off by ${Math.round(doubt.metres / 10) * 10} m`;
  }
}
