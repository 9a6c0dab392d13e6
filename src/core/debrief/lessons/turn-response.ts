import { rollLeadSeconds } from '../../paths/ship-model.ts';
import { radiansFromDegrees, signedRadians } from '../../units/angle.ts';
import { STANDARD_GRAVITY } from '../../units/quantity.ts';
import { type AirTrack, indexAt } from '../air-track.ts';
import { type Measured, measuredMean } from '../measured.ts';
import type { CueChange } from '../replay.ts';

/** A turn as it was cued and as it was flown. */
export interface FlownTurn {
  readonly cuedAtSeconds: number;
  readonly cuedBankRadians: number;
  /** From the turn's steady part. */
  readonly bankRadians: number;
  /** From the cue to the first aileron, the roll in allowed for. */
  readonly reactionSeconds: number;
}

/** A turn must be cued for this long without a change of its sense to be measured. */
const LEAST_TURN_SECONDS = 6;
/** After the cue until the wings stand at the bank, and before the roll out. */
const SETTLED_SECONDS = 2.6;
const ROLL_OUT_SECONDS = 1.6;
/** Before the cue the wings must have been level for this long. */
const LEVEL_SECONDS = 4;
const LEVEL_RATE = radiansFromDegrees(2.5);

/**
 * The turns of a flight that a bank can be read from: cued out of level flight, held for six seconds and more. The
 * heading in the steady part is a straight line over time; where that line meets the heading flown before, the turn
 * would have begun had the bank been there at once, which is the roll's own lead after the hand moved.
 */
export function flownTurns(changes: readonly CueChange[], air: AirTrack, rollRateRadiansPerSecond: number): FlownTurn[] {
  return cuedTurns(changes).flatMap((cued): FlownTurn[] => {
    const before = levelBefore(air, cued.fromSeconds);
    const steady = steadyTurn(air, cued.fromSeconds + SETTLED_SECONDS, cued.toSeconds - ROLL_OUT_SECONDS + 0.5, cued.sense);
    if (before === null || steady === null) return [];
    const bankRadians = Math.atan((Math.abs(steady.rate) * steady.airspeed) / STANDARD_GRAVITY);
    const toGo = signedRadians(before.directionRadians - steady.directionRadians);
    const beganSeconds = steady.atSeconds + toGo / steady.rate;
    // A turn past half a circle has turned more than the difference of directions shows.
    const whole = (2 * Math.PI) / Math.abs(steady.rate);
    const meetsSeconds = beganSeconds > steady.atSeconds ? beganSeconds - whole : beganSeconds;
    const reactionSeconds = meetsSeconds - cued.fromSeconds - rollLeadSeconds(bankRadians, rollRateRadiansPerSecond);
    return [{ cuedAtSeconds: cued.fromSeconds, cuedBankRadians: cued.bankRadians, bankRadians, reactionSeconds }];
  });
}

/** The pilot's reaction from the turns: the roll in is as fast as the flight was set up with. Null for under three. */
export function reactionFromTurns(turns: readonly FlownTurn[]): Measured | null {
  return measuredMean(
    turns.map(({ reactionSeconds }) => reactionSeconds).filter((seconds) => seconds > -1.5 && seconds < 4),
    0.1,
  );
}

/** How much of the cued bank the pilot really flies: 1 for all of it. Null for under three turns. */
export function bankShareFromTurns(turns: readonly FlownTurn[]): Measured | null {
  return measuredMean(
    turns
      .filter(({ cuedBankRadians }) => cuedBankRadians > radiansFromDegrees(10))
      .map(({ bankRadians, cuedBankRadians }) => Math.tan(bankRadians) / Math.tan(cuedBankRadians)),
    0.02,
  );
}

interface CuedTurn {
  readonly fromSeconds: number;
  readonly toSeconds: number;
  /** Anticlockwise positive. */
  readonly sense: 1 | -1;
  /** Mean over the turn, by time. */
  readonly bankRadians: number;
}

function cuedTurns(changes: readonly CueChange[]): CuedTurn[] {
  const turns: CuedTurn[] = [];
  let open: { fromSeconds: number; turn: 'left' | 'right'; bankSeconds: number; lastSeconds: number; bankDegrees: number; begins: boolean } | null = null;
  let before: CueChange | null = null;
  for (const change of changes) {
    const turning =
      (change.turn === 'left' || change.turn === 'right') && change.bankDegrees !== null ? { turn: change.turn, bankDegrees: change.bankDegrees } : null;
    if (open !== null) {
      open.bankSeconds += open.bankDegrees * (change.atSeconds - open.lastSeconds);
      open.lastSeconds = change.atSeconds;
      if (turning !== null && turning.turn === open.turn) {
        open.bankDegrees = turning.bankDegrees;
        before = change;
        continue;
      }
      const lasted = change.atSeconds - open.fromSeconds;
      if (lasted >= LEAST_TURN_SECONDS && open.begins) {
        turns.push({
          fromSeconds: open.fromSeconds,
          toSeconds: change.atSeconds,
          sense: open.turn === 'left' ? 1 : -1,
          bankRadians: radiansFromDegrees(open.bankSeconds / lasted),
        });
      }
      open = null;
    }
    if (turning !== null) {
      open = { fromSeconds: change.atSeconds, ...turning, bankSeconds: 0, lastSeconds: change.atSeconds, begins: before?.turn === 'straight' };
    }
    before = change;
  }
  return turns;
}

/** The heading held before a cue, or null when it was none. */
function levelBefore(air: AirTrack, cuedSeconds: number): { readonly directionRadians: number } | null {
  const from = indexAt(air.atSeconds, cuedSeconds - LEVEL_SECONDS) + 1;
  const to = indexAt(air.atSeconds, cuedSeconds);
  if (from < 1 || to - from < 1) return null;
  let east = 0;
  let north = 0;
  for (let index = from; index <= to; index += 1) {
    if (Math.abs(air.turnRateRadiansPerSecond[index]!) > LEVEL_RATE) return null;
    east += Math.cos(air.directionRadians[index]!);
    north += Math.sin(air.directionRadians[index]!);
  }
  return { directionRadians: Math.atan2(north, east) };
}

/** The straight line through the headings of a turn's steady part; null for too short a part, or a turn the other way. */
function steadyTurn(
  air: AirTrack,
  fromSeconds: number,
  toSeconds: number,
  sense: 1 | -1,
): { readonly atSeconds: number; readonly directionRadians: number; readonly rate: number; readonly airspeed: number } | null {
  const from = indexAt(air.atSeconds, fromSeconds) + 1;
  const to = indexAt(air.atSeconds, toSeconds);
  const count = to - from + 1;
  if (from < 0 || count < 3 || toSeconds - fromSeconds < 2) return null;
  const atSeconds = (air.atSeconds[from]! + air.atSeconds[to]!) / 2;
  let unwound = air.directionRadians[from]!;
  let [sum, sumTime, sumSquare, sumProduct, sumSpeed] = [0, 0, 0, 0, 0];
  for (let index = from; index <= to; index += 1) {
    unwound += signedRadians(air.directionRadians[index]! - unwound);
    const time = air.atSeconds[index]! - atSeconds;
    sum += unwound;
    sumTime += time;
    sumSquare += time * time;
    sumProduct += time * unwound;
    sumSpeed += air.airspeedMetresPerSecond[index]!;
  }
  const rate = (count * sumProduct - sumTime * sum) / (count * sumSquare - sumTime * sumTime);
  if (!(rate * sense > radiansFromDegrees(1.5))) return null;
  return { atSeconds, directionRadians: (sum - rate * sumTime) / count, rate, airspeed: sumSpeed / count };
}
