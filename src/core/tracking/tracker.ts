import type { WindVector } from '../earth/wind-vector.ts';
import type { SitePoint } from '../earth/site-frame.ts';
import { type Estimate, STATE, STATE_SIZE } from './estimate.ts';
import { signedRadians } from '../units/angle.ts';
import { type Motion, propagate } from './propagate.ts';
import { CIRCLE_WINDOW_SECONDS, circleMisfit, circleWind, type GroundVelocity } from './circle-wind.ts';
import { commandAt } from './turn-command.ts';
import { type Update, updatedByGroundVelocity, updatedByHeldHeading, updatedByPosition } from './update.ts';

/** A position in the site frame with its time and what the receiver says of its own error. */
export interface Sighting extends SitePoint {
  readonly measuredAtSeconds: number;
  readonly accuracyMetres: number;
  /** Over the ground, from the receiver; null when it gives none. */
  readonly velocity: { readonly eastMetresPerSecond: number; readonly northMetresPerSecond: number } | null;
}

export type FixVerdict =
  | 'used'
  /** Not yet two fixes to start from. */
  | 'waiting'
  | 'out-of-order'
  /** Worse than a receiver of satellites gives. */
  | 'imprecise'
  /** The same coordinates once more, at flying speed. */
  | 'frozen'
  /** Too far from where the aircraft can be. */
  | 'jump'
  /** Not at flying speed: on the ground, or no flight. */
  | 'too-slow';

/** The fix gate's and the filter's memory. */
export interface Tracker {
  /** At the last used fix; null while none is trusted. */
  readonly estimate: Estimate | null;
  /** Sightings that do not yet fit, oldest first: the start, or after a jump. */
  readonly pending: readonly Sighting[];
  /** How many sightings must agree before the filter begins (anew). */
  readonly needed: number;
  readonly last: Sighting | null;
  /** Squared distance of the last sighting from its prediction, chi-square with two degrees of freedom. */
  readonly lastChiSquare: number | null;
  /** Over the ground in the last 90 s, oldest first. */
  readonly velocities: readonly GroundVelocity[];
  /** Where the next of them is to begin, with a receiver of several fixes a second; else at the last sighting. */
  readonly velocityFrom?: Sighting | undefined;
}

export interface TrackerPriors {
  readonly wind: WindVector;
  /** One standard deviation of each component of the forecast's error. */
  readonly windSigmaMetresPerSecond: number;
  readonly airspeedMetresPerSecond: number;
  /** How far the airspeed usually flown may be from that, one standard deviation as a share; none where it is left out, as in logs of before. */
  readonly usualAirspeedShare?: number;
}

/** Chi-square, two degrees of freedom, 99.9 %: 13.816 (Abramowitz and Stegun 1964, table 26.8). */
const GATE_CHI_SQUARE = 13.816;
/** Beyond this, which one fix in fifty passes by chance, the pilot is thought to do otherwise than was cued (the same table: 98 %). */
const OTHERWISE_CHI_SQUARE = 7.824;
/** A 95 % radius is 2.448 standard deviations of each component of a round Gaussian. */
const SIGMA_PER_95_PERCENT_RADIUS = 2.448;
const LEAST_SIGMA_METRES = 3;
const IMPRECISE_METRES = 100;
const RECEIVER_VELOCITY_SIGMA = 1.5;
/** Longer than this without a fix, heading and turn are guesses: start again from two fixes, keeping wind and drift. */
const LONG_GAP_SECONDS = 4;
const FIXES_AFTER_JUMP = 5;
const FIXES_AT_START = 2;
const SLOWEST_METRES_PER_SECOND = 15;
/** Nothing flies faster over the ground than 1.6 times its planned airspeed and a wind of 40 m/s. */
const FASTEST_SHARE = 1.6;
const FASTEST_WIND = 40;

export const emptyTracker: Tracker = { estimate: null, pending: [], needed: FIXES_AT_START, last: null, lastChiSquare: null, velocities: [] };

/** The memory when everything seen was true so much sooner than was believed; negative for later. */
export function trackerOlder(tracker: Tracker, bySeconds: number): Tracker {
  const { estimate, last, velocities } = tracker;
  return {
    ...tracker,
    estimate: estimate === null ? null : { ...estimate, atSeconds: estimate.atSeconds - bySeconds },
    pending: [],
    last: last === null ? null : { ...last, measuredAtSeconds: last.measuredAtSeconds - bySeconds },
    velocityFrom: undefined,
    velocities: velocities.map((one) => ({ ...one, atSeconds: one.atSeconds - bySeconds })),
  };
}

export interface TrackerStep {
  readonly tracker: Tracker;
  readonly verdict: FixVerdict;
}

const sigmaOf = (sighting: Sighting): number => Math.max(LEAST_SIGMA_METRES, sighting.accuracyMetres / SIGMA_PER_95_PERCENT_RADIUS);

const impliedSpeed = (one: Sighting, other: Sighting): number =>
  Math.hypot(other.eastMetres - one.eastMetres, other.northMetres - one.northMetres) / (other.measuredAtSeconds - one.measuredAtSeconds);

/** Takes one sighting: judges it, and filters it when it passes. Total; nothing is lost, the verdict says why. */
export function tracked(tracker: Tracker, sighting: Sighting, motion: Motion, priors: TrackerPriors): TrackerStep {
  const { last, estimate } = tracker;
  if (last !== null && sighting.measuredAtSeconds <= last.measuredAtSeconds + 1e-3) return { tracker, verdict: 'out-of-order' };
  if (!(sighting.accuracyMetres <= IMPRECISE_METRES)) return { tracker, verdict: 'imprecise' };
  // At flying speed not even the second identical position is news; it only ages.
  if (last !== null && last.eastMetres === sighting.eastMetres && last.northMetres === sighting.northMetres) {
    return { tracker, verdict: 'frozen' };
  }
  const from = tracker.velocityFrom ?? last;
  const velocities = withVelocity(tracker.velocities, from, sighting, FASTEST_SHARE * priors.airspeedMetresPerSecond + FASTEST_WIND);
  const tooNear = from !== null && sighting.measuredAtSeconds - from.measuredAtSeconds < VELOCITY_SPAN_SECONDS;
  const seen = { ...tracker, last: sighting, velocities, velocityFrom: tooNear ? from : undefined };

  if (estimate !== null && sighting.measuredAtSeconds - estimate.atSeconds <= (motion.longestGapSeconds ?? LONG_GAP_SECONDS)) {
    const asCued = updateFrom(estimate, sighting, motion);
    // A pilot may do otherwise than was cued; an aircraft cannot be where no turn would have brought it.
    const update = asCued.chiSquare <= OTHERWISE_CHI_SQUARE || motion.freePilot !== true ? asCued : asMayBe(estimate, sighting, motion, asCued);
    if (update.chiSquare <= GATE_CHI_SQUARE) {
      const { velocity } = sighting;
      const refined =
        velocity === null
          ? update.estimate
          : updatedByGroundVelocity(update.estimate, velocity.eastMetresPerSecond, velocity.northMetresPerSecond, RECEIVER_VELOCITY_SIGMA).estimate;
      return {
        tracker: {
          ...seen,
          estimate: besideCircle(byHeldHeading(refined, motion), velocities, motion),
          pending: [],
          needed: FIXES_AT_START,
          lastChiSquare: update.chiSquare,
        },
        verdict: 'used',
      };
    }
    return restarted({ ...seen, needed: FIXES_AFTER_JUMP, lastChiSquare: update.chiSquare }, sighting, motion, priors, 'jump');
  }
  return restarted(seen, sighting, motion, priors, seen.needed === FIXES_AFTER_JUMP ? 'jump' : 'waiting');
}

function updateFrom(estimate: Estimate, sighting: Sighting, motion: Motion): Update {
  return updatedByPosition(propagate(estimate, sighting.measuredAtSeconds, motion), sighting.eastMetres, sighting.northMetres, sigmaOf(sighting));
}

/** A turn rate that nobody foretold, one standard deviation: 48 degrees of bank either way at 120 mph. */
const UNFORETOLD_TURN_RATE = 0.2;
const UNFORETOLD_DIRECTION_RADIANS = (8 * Math.PI) / 180;

/** The likeliest of what an aircraft may have done instead: the same with a hand that differs, or what it did before. */
function asMayBe(estimate: Estimate, sighting: Sighting, motion: Motion, asCued: Update): Update {
  const free = doingOtherwise(estimate);
  const differently = updateFrom(free, sighting, motion);
  const asBefore = updateFrom(free, sighting, { ...motion, commands: [] });
  const likelier = asBefore.chiSquare < differently.chiSquare ? asBefore : differently;
  return likelier.chiSquare <= GATE_CHI_SQUARE ? likelier : asCued;
}

/** The estimate where the pilot does not do as was cued: a hand that is late or early, a heading nobody asked for. */
function doingOtherwise(estimate: Estimate): Estimate {
  const covariance = [...estimate.covariance];
  covariance[STATE.direction * STATE_SIZE + STATE.direction]! += UNFORETOLD_DIRECTION_RADIANS ** 2;
  covariance[STATE.turnRate * STATE_SIZE + STATE.turnRate]! += UNFORETOLD_TURN_RATE ** 2;
  return { ...estimate, covariance };
}

/** Two fixes nearer in time than this give a velocity that is all noise. */
const VELOCITY_SPAN_SECONDS = 0.8;

function withVelocity(velocities: readonly GroundVelocity[], last: Sighting | null, sighting: Sighting, fastest: number): readonly GroundVelocity[] {
  const at = sighting.measuredAtSeconds;
  const kept = velocities.filter(({ atSeconds }) => atSeconds > at - CIRCLE_WINDOW_SECONDS);
  const dtSeconds = last === null ? Infinity : at - last.measuredAtSeconds;
  if (last === null || dtSeconds > LONG_GAP_SECONDS || dtSeconds < VELOCITY_SPAN_SECONDS || impliedSpeed(last, sighting) > fastest) return kept;
  return [
    ...kept,
    {
      atSeconds: at,
      eastMetresPerSecond: (sighting.eastMetres - last.eastMetres) / dtSeconds,
      northMetresPerSecond: (sighting.northMetres - last.northMetres) / dtSeconds,
    },
  ];
}

/** The filter and the circle disagree about the wind by more than either can be wrong, and the filter's does not explain what was seen. */
const APART_METRES_PER_SECOND = 6;
const UNEXPLAINED_SHARE = 1.5;
const CIRCLE_SIGMA_METRES_PER_SECOND = 1.5;

/** The filter's estimate, or, where a full turn contradicts its wind, one begun again with the circle's. */
function besideCircle(estimate: Estimate, velocities: readonly GroundVelocity[], motion: Motion): Estimate {
  const found = circleWind(velocities, motion.plannedAirspeedMetresPerSecond);
  if (found === null) return estimate;
  const { wind } = found;
  const filtered = { eastMetresPerSecond: estimate.mean[STATE.windEast]!, northMetresPerSecond: estimate.mean[STATE.windNorth]! };
  const apart = Math.hypot(filtered.eastMetresPerSecond - wind.eastMetresPerSecond, filtered.northMetresPerSecond - wind.northMetresPerSecond);
  if (apart <= APART_METRES_PER_SECOND) return estimate;
  const misfit = circleMisfit(velocities, { wind: filtered, airspeedMetresPerSecond: estimate.mean[STATE.airspeed]! });
  if (misfit < UNEXPLAINED_SHARE * circleMisfit(velocities, found)) return estimate;
  const mean = [...estimate.mean];
  const covariance = [...estimate.covariance];
  const last = velocities.at(-1)!;
  mean[STATE.windEast] = wind.eastMetresPerSecond;
  mean[STATE.windNorth] = wind.northMetresPerSecond;
  mean[STATE.airspeed] = found.airspeedMetresPerSecond;
  mean[STATE.direction] = Math.atan2(last.northMetresPerSecond - wind.northMetresPerSecond, last.eastMetresPerSecond - wind.eastMetresPerSecond);
  const learns = estimate.covariance[STATE.usualAirspeed * STATE_SIZE + STATE.usualAirspeed]! > 0;
  if (learns) mean[STATE.usualAirspeed] = found.airspeedMetresPerSecond;
  const doubt: [number, number][] = [
    [STATE.direction, 0.2],
    [STATE.airspeed, 2],
    ...(learns ? [[STATE.usualAirspeed, 2] satisfies [number, number]] : []),
    [STATE.windEast, CIRCLE_SIGMA_METRES_PER_SECOND],
    [STATE.windNorth, CIRCLE_SIGMA_METRES_PER_SECOND],
  ];
  for (const [index, sigma] of doubt) {
    for (let other = 0; other < STATE_SIZE; other += 1) {
      covariance[index * STATE_SIZE + other] = 0;
      covariance[other * STATE_SIZE + index] = 0;
    }
    covariance[index * STATE_SIZE + index] = sigma * sigma;
  }
  return { ...estimate, mean, covariance };
}

/** A heading shown for this long is flown; common practice, no source. */
const HELD_SECONDS = 3;
const SAME_HEADING_RADIANS = (3 * Math.PI) / 180;
/**
 * How well a heading is held is nobody's measurement: compasses and hands err by a few degrees for many seconds, so a
 * reading a second is worth little each. Farther off than the doubt below, it is not believed to be flown at all.
 */
const HELD_SIGMA_RADIANS = (6 * Math.PI) / 180;
const HELD_DOUBT_CHI_SQUARE = 4;

function byHeldHeading(estimate: Estimate, { commands, pilot }: Motion): Estimate {
  const last = commands.at(-1);
  if (last === undefined || last.sense !== 'either') return estimate;
  const since = estimate.atSeconds - pilot.reactionSeconds - HELD_SECONDS;
  const held = commands.filter(({ fromSeconds }, index) => (commands[index + 1]?.fromSeconds ?? Infinity) > since || fromSeconds > since);
  const steady = held.every((one) => one.sense === 'either' && Math.abs(signedRadians(one.directionRadians - last.directionRadians)) < SAME_HEADING_RADIANS);
  if (!steady) return estimate;
  const shown = commandAt(commands, estimate.atSeconds, pilot.reactionSeconds);
  if (shown === null) return estimate;
  const update = updatedByHeldHeading(estimate, shown.directionRadians, HELD_SIGMA_RADIANS);
  return update.chiSquare > HELD_DOUBT_CHI_SQUARE ? estimate : update.estimate;
}

/** Collects sightings that agree with each other until there are enough to begin with. */
function restarted(tracker: Tracker, sighting: Sighting, motion: Motion, priors: TrackerPriors, verdict: 'jump' | 'waiting'): TrackerStep {
  const previous = tracker.pending.at(-1);
  const fastest = FASTEST_SHARE * priors.airspeedMetresPerSecond + FASTEST_WIND;
  const agrees =
    previous !== undefined && sighting.measuredAtSeconds - previous.measuredAtSeconds <= LONG_GAP_SECONDS && impliedSpeed(previous, sighting) <= fastest;
  const pending = agrees ? [...tracker.pending, sighting].slice(-FIXES_AFTER_JUMP) : [sighting];
  if (pending.length < tracker.needed) return { tracker: { ...tracker, pending }, verdict };
  const before = pending.at(-2)!;
  const speed = impliedSpeed(before, sighting);
  if (speed < SLOWEST_METRES_PER_SECOND) return { tracker: { ...tracker, pending }, verdict: 'too-slow' };
  const estimate = besideCircle(begun(before, sighting, tracker.estimate, motion, priors), tracker.velocities, motion);
  return { tracker: { ...tracker, estimate, pending: [], needed: FIXES_AT_START, lastChiSquare: null }, verdict: 'used' };
}

/** A first estimate from two sightings; wind and drift are carried over from before a gap. */
function begun(before: Sighting, sighting: Sighting, old: Estimate | null, motion: Motion, priors: TrackerPriors): Estimate {
  const n = STATE_SIZE;
  const dtSeconds = sighting.measuredAtSeconds - before.measuredAtSeconds;
  const velocityEast = sighting.velocity?.eastMetresPerSecond ?? (sighting.eastMetres - before.eastMetres) / dtSeconds;
  const velocityNorth = sighting.velocity?.northMetresPerSecond ?? (sighting.northMetres - before.northMetres) / dtSeconds;
  const carried = old === null ? null : propagate(old, sighting.measuredAtSeconds, motion);
  const windEast = carried?.mean[STATE.windEast] ?? priors.wind.eastMetresPerSecond;
  const windNorth = carried?.mean[STATE.windNorth] ?? priors.wind.northMetresPerSecond;
  const sigma = sigmaOf(sighting);
  const mean = new Array<number>(n).fill(0);
  mean[STATE.east] = sighting.eastMetres;
  mean[STATE.north] = sighting.northMetres;
  mean[STATE.direction] = Math.atan2(velocityNorth - windNorth, velocityEast - windEast);
  mean[STATE.airspeed] = carried?.mean[STATE.airspeed] ?? priors.airspeedMetresPerSecond;
  mean[STATE.usualAirspeed] = carried?.mean[STATE.usualAirspeed] ?? priors.airspeedMetresPerSecond;
  mean[STATE.windEast] = windEast;
  mean[STATE.windNorth] = windNorth;
  mean[STATE.driftEast] = carried?.mean[STATE.driftEast] ?? 0;
  mean[STATE.driftNorth] = carried?.mean[STATE.driftNorth] ?? 0;
  const covariance = new Array<number>(n * n).fill(0);
  const put = (index: number, value: number): void => {
    covariance[index * n + index] = value;
  };
  put(STATE.east, sigma * sigma);
  put(STATE.north, sigma * sigma);
  put(STATE.direction, 0.3 * 0.3);
  put(STATE.airspeed, (0.04 * priors.airspeedMetresPerSecond) ** 2);
  put(STATE.turnRate, 0.12 * 0.12);
  const kept = [STATE.windEast, STATE.windNorth, STATE.driftEast, STATE.driftNorth, STATE.usualAirspeed];
  if (carried === null) {
    put(STATE.windEast, priors.windSigmaMetresPerSecond ** 2);
    put(STATE.windNorth, priors.windSigmaMetresPerSecond ** 2);
    put(STATE.usualAirspeed, ((priors.usualAirspeedShare ?? 0) * priors.airspeedMetresPerSecond) ** 2);
  } else {
    for (const row of kept) for (const column of kept) covariance[row * n + column] = carried.covariance[row * n + column]!;
  }
  // The airspeed of now is the usual one and a wander of its own, so it is known together with what that is known with.
  for (const column of kept) {
    const shared = covariance[STATE.usualAirspeed * n + column]!;
    covariance[STATE.airspeed * n + column] = shared;
    covariance[column * n + STATE.airspeed] = shared;
  }
  covariance[STATE.airspeed * n + STATE.airspeed]! += covariance[STATE.usualAirspeed * n + STATE.usualAirspeed]!;
  const start: Estimate = { atSeconds: sighting.measuredAtSeconds, mean, covariance };
  const velocitySigma = sighting.velocity === null ? (sigma * Math.SQRT2) / dtSeconds + 4 : RECEIVER_VELOCITY_SIGMA;
  return updatedByGroundVelocity(start, velocityEast, velocityNorth, velocitySigma).estimate;
}
