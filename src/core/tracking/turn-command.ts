import { signedRadians } from '../units/angle.ts';
import { STANDARD_GRAVITY } from '../units/quantity.ts';

/** What the pilot was asked to do, and from when: the estimator's best guess at what the aircraft does. */
export interface TurnCommand {
  /** When the cue changed, monotonic. */
  readonly fromSeconds: number;
  /** Sense of the turn seen from above; `either` follows the heading the short way round. */
  readonly sense: 'left' | 'right' | 'either';
  /** Heading to hold or to roll out on, as a direction anticlockwise from east. */
  readonly directionRadians: number;
  readonly bankRadians: number;
  /** True when it begins or ends a turn: then hands and reactions differ most, and the estimator doubts most. */
  readonly startsManoeuvre: boolean;
  /** No cue was shown from then on: the wings are believed to be levelled. */
  readonly blank?: boolean;
}

/** What is asked for now; whether that begins a manoeuvre is known where it is shown. */
export function asked(fromSeconds: number, sense: TurnCommand['sense'], directionRadians: number, bankRadians = 0): TurnCommand {
  return { fromSeconds, sense, directionRadians, bankRadians, startsManoeuvre: false };
}

/** How a pilot is believed to act on a cue. */
export interface PilotModel {
  /** Between the cue and the hand. */
  readonly reactionSeconds: number;
  readonly rollRateRadiansPerSecond: number;
  /** Turn rate flown over the one that the cued bank gives; 1 where it is left out. */
  readonly turnShare?: number;
  /** How far off the shown heading the pilot may hold without correcting it; 0 where it is left out. */
  readonly headingSlackRadians?: number;
}

/** Small corrections of heading are flown with this much bank at most; common practice, no source. */
const CORRECTION_BANK_RADIANS = (20 * Math.PI) / 180;
/** A heading is closed with this time constant when it is nearly reached. */
const HEADING_CLOSING_SECONDS = 1.2;
/** A turn's sense no longer matters within this much past the heading: it is corrected back, not flown round. */
const OVERSHOOT_RADIANS = (50 * Math.PI) / 180;
/** The hand closes on the bank it wants with this time constant, up to the roll rate. */
const BANK_CLOSING_SECONDS = 0.3;

/**
 * Turn rate the pilot aims at, radians per second, anticlockwise positive: the cued bank until the heading is
 * near, then a roll-out onto it. `R = V^2 / (g tan bank)` gives rate `g tan bank / V`.
 *
 * @param turnShare of the rate that the bank gives, as this pilot flies it
 * @param headingSlackRadians a heading held this near to the one shown is not corrected: the pilot's compass may err by that
 */
export function wantedTurnRate(
  command: TurnCommand,
  directionRadians: number,
  airspeedMetresPerSecond: number,
  headingSlackRadians = 0,
  turnShare = 1,
): number {
  const errorRadians = signedRadians(command.directionRadians - directionRadians);
  const rateAtBank = (bankRadians: number): number => (STANDARD_GRAVITY * Math.tan(bankRadians)) / airspeedMetresPerSecond;
  if (command.sense === 'either') {
    const limit = rateAtBank(CORRECTION_BANK_RADIANS);
    const beyond = Math.sign(errorRadians) * Math.max(0, Math.abs(errorRadians) - headingSlackRadians);
    return Math.min(limit, Math.max(-limit, beyond / HEADING_CLOSING_SECONDS));
  }
  const sign = command.sense === 'left' ? 1 : -1;
  const limit = turnShare * rateAtBank(command.bankRadians);
  let toGoRadians = errorRadians * sign;
  if (toGoRadians < -OVERSHOOT_RADIANS) toGoRadians += 2 * Math.PI;
  return sign * Math.min(limit, Math.max(-rateAtBank(CORRECTION_BANK_RADIANS), toGoRadians / HEADING_CLOSING_SECONDS));
}

/**
 * How fast the turn rate changes, radians per second squared: the bank moves towards the wanted one at the roll
 * rate at most. With tan(bank) = V rate / g, d(rate)/dt = (g / V) sec^2(bank) d(bank)/dt.
 */
export function turnRateChange(
  wantedRadiansPerSecond: number,
  rateRadiansPerSecond: number,
  airspeedMetresPerSecond: number,
  rollRateRadiansPerSecond: number,
): number {
  const tangent = (airspeedMetresPerSecond * rateRadiansPerSecond) / STANDARD_GRAVITY;
  const limit = (STANDARD_GRAVITY / airspeedMetresPerSecond) * (1 + tangent * tangent) * rollRateRadiansPerSecond;
  const change = (wantedRadiansPerSecond - rateRadiansPerSecond) / BANK_CLOSING_SECONDS;
  return Math.min(limit, Math.max(-limit, change));
}

/** The command that the pilot acts on at a time, or null before the first; `commands` oldest first. */
export function commandAt(commands: readonly TurnCommand[], atSeconds: number, reactionSeconds: number): TurnCommand | null {
  let found: TurnCommand | null = null;
  for (const command of commands) if (command.fromSeconds + reactionSeconds <= atSeconds) found = command;
  return found;
}
