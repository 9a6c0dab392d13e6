import { type Estimate, STATE, STATE_SIZE } from './estimate.ts';
import { product, transposed } from './matrix.ts';
import { commandAt, type PilotModel, type TurnCommand, turnRateChange, wantedTurnRate } from './turn-command.ts';

/** How far the truth is believed to wander from the model; spectral densities, SI. */
export interface ProcessNoise {
  /** Each position component, m2/s: gusts that move the aircraft and not the smoke; none where it is left out. */
  readonly position?: number;
  /** Direction of flight, rad2/s: compasses, hands and gusts. */
  readonly direction: number;
  /** Turn rate, rad2/s3, while a cue stands. */
  readonly turnRateSteady: number;
  /** Turn rate, rad2/s3, within a few seconds of a change of cue, when hands and reactions differ. */
  readonly turnRateChanging: number;
  /** Airspeed, m2/s3. */
  readonly airspeed: number;
  /** Each wind component, m2/s3. */
  readonly wind: number;
}

export interface Motion {
  readonly pilot: PilotModel;
  readonly commands: readonly TurnCommand[];
  readonly noise: ProcessNoise;
  /** When the drift is zero, monotonic; null while no datum is set. */
  readonly datumAtSeconds: number | null;
  readonly plannedAirspeedMetresPerSecond: number;
  /** Whether a fix may also lie where an aircraft comes that does not do as was cued; not in logs of before. */
  readonly freePilot?: boolean;
  /** For how long without a fix heading and turn are believed to go on as cued; 4 s where it is left out. */
  readonly longestGapSeconds?: number;
}

const STEP_SECONDS = 0.1;
const CHANGING_SECONDS = 2.5;
/** An error of the turn rate is mended by the hand that follows the cue within about this time. */
const RATE_MEMORY_SECONDS = 0.6;
/** Airspeed returns to the usual one with this time constant. */
const AIRSPEED_RETURN_SECONDS = 60;

const zeroDrift = (estimate: Estimate): Estimate => {
  const mean = [...estimate.mean];
  const covariance = [...estimate.covariance];
  for (const index of [STATE.driftEast, STATE.driftNorth]) {
    mean[index] = 0;
    for (let other = 0; other < STATE_SIZE; other += 1) {
      covariance[index * STATE_SIZE + other] = 0;
      covariance[other * STATE_SIZE + index] = 0;
    }
  }
  return { ...estimate, mean, covariance };
};

const steppedMean = (mean: readonly number[], atSeconds: number, dtSeconds: number, motion: Motion): number[] => {
  const next = [...mean];
  const direction = mean[STATE.direction]!;
  const airspeed = Math.max(1, mean[STATE.airspeed]!);
  const rate = mean[STATE.turnRate]!;
  const command = commandAt(motion.commands, atSeconds, motion.pilot.reactionSeconds);
  // Without a cue the aircraft is believed to go on as it does, easing out of its turn.
  const wanted = command === null ? rate * 0.9 : wantedTurnRate(command, direction, airspeed, motion.pilot.headingSlackRadians, motion.pilot.turnShare);
  const change = turnRateChange(wanted, rate, airspeed, motion.pilot.rollRateRadiansPerSecond);
  const halfway = direction + (rate * dtSeconds) / 2;
  next[STATE.east]! += (airspeed * Math.cos(halfway) + mean[STATE.windEast]!) * dtSeconds;
  next[STATE.north]! += (airspeed * Math.sin(halfway) + mean[STATE.windNorth]!) * dtSeconds;
  next[STATE.direction]! += rate * dtSeconds + (change * dtSeconds * dtSeconds) / 2;
  next[STATE.airspeed]! += ((mean[STATE.usualAirspeed]! - airspeed) * dtSeconds) / AIRSPEED_RETURN_SECONDS;
  next[STATE.turnRate]! += change * dtSeconds;
  if (motion.datumAtSeconds !== null && atSeconds >= motion.datumAtSeconds) {
    next[STATE.driftEast]! += mean[STATE.windEast]! * dtSeconds;
    next[STATE.driftNorth]! += mean[STATE.windNorth]! * dtSeconds;
  }
  return next;
};

const stepped = (estimate: Estimate, dtSeconds: number, motion: Motion, withCovariance: boolean): Estimate => {
  const { mean, atSeconds } = estimate;
  const next = { atSeconds: atSeconds + dtSeconds, mean: steppedMean(mean, atSeconds, dtSeconds, motion), covariance: estimate.covariance };
  if (!withCovariance) return next;

  const direction = mean[STATE.direction]!;
  const airspeed = mean[STATE.airspeed]!;
  const transition = new Array<number>(STATE_SIZE * STATE_SIZE).fill(0);
  const set = (row: number, column: number, value: number): void => {
    transition[row * STATE_SIZE + column] = value;
  };
  for (let index = 0; index < STATE_SIZE; index += 1) set(index, index, 1);
  const cosine = Math.cos(direction + (mean[STATE.turnRate]! * dtSeconds) / 2);
  const sine = Math.sin(direction + (mean[STATE.turnRate]! * dtSeconds) / 2);
  set(STATE.east, STATE.direction, -airspeed * sine * dtSeconds);
  set(STATE.north, STATE.direction, airspeed * cosine * dtSeconds);
  set(STATE.east, STATE.turnRate, (-airspeed * sine * dtSeconds * dtSeconds) / 2);
  set(STATE.north, STATE.turnRate, (airspeed * cosine * dtSeconds * dtSeconds) / 2);
  set(STATE.east, STATE.airspeed, cosine * dtSeconds);
  set(STATE.north, STATE.airspeed, sine * dtSeconds);
  set(STATE.east, STATE.windEast, dtSeconds);
  set(STATE.north, STATE.windNorth, dtSeconds);
  set(STATE.direction, STATE.turnRate, dtSeconds);
  set(STATE.turnRate, STATE.turnRate, Math.exp(-dtSeconds / RATE_MEMORY_SECONDS));
  set(STATE.airspeed, STATE.airspeed, 1 - dtSeconds / AIRSPEED_RETURN_SECONDS);
  set(STATE.airspeed, STATE.usualAirspeed, dtSeconds / AIRSPEED_RETURN_SECONDS);
  const datum = motion.datumAtSeconds;
  if (datum !== null && atSeconds >= datum) {
    set(STATE.driftEast, STATE.windEast, dtSeconds);
    set(STATE.driftNorth, STATE.windNorth, dtSeconds);
  }
  const covariance = product(
    product(transition, estimate.covariance, STATE_SIZE, STATE_SIZE, STATE_SIZE),
    transposed(transition, STATE_SIZE, STATE_SIZE),
    STATE_SIZE,
    STATE_SIZE,
    STATE_SIZE,
  );
  const changing = motion.commands.some(
    ({ fromSeconds, startsManoeuvre }) => startsManoeuvre && atSeconds >= fromSeconds && atSeconds < fromSeconds + CHANGING_SECONDS,
  );
  const add = (index: number, density: number): void => {
    covariance[index * STATE_SIZE + index]! += density * dtSeconds;
  };
  add(STATE.east, motion.noise.position ?? 0);
  add(STATE.north, motion.noise.position ?? 0);
  add(STATE.direction, motion.noise.direction);
  add(STATE.turnRate, changing ? motion.noise.turnRateChanging : motion.noise.turnRateSteady);
  add(STATE.airspeed, motion.noise.airspeed);
  add(STATE.windEast, motion.noise.wind);
  add(STATE.windNorth, motion.noise.wind);
  return { ...next, covariance };
};

/**
 * The estimate at a later time, by the coordinated turn that the pilot is believed to fly on the cues given so
 * far. At the datum the drift becomes exactly zero; before it the drift stands still, after it follows the wind.
 *
 * @param withCovariance false predicts the mean only, for what is shown between fixes
 */
export function propagate(estimate: Estimate, toSeconds: number, motion: Motion, withCovariance = true): Estimate {
  let current = estimate;
  const datum = motion.datumAtSeconds;
  while (current.atSeconds < toSeconds - 1e-9) {
    let untilSeconds = Math.min(toSeconds, current.atSeconds + STEP_SECONDS);
    const crossing = datum !== null && current.atSeconds < datum && datum <= untilSeconds;
    if (crossing) untilSeconds = datum;
    current = stepped(current, untilSeconds - current.atSeconds, motion, withCovariance);
    // The sum of steps may miss the end by rounding; the time itself must not.
    current = { ...current, atSeconds: untilSeconds };
    if (crossing) current = zeroDrift(current);
  }
  return current;
}
