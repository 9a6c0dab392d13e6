import { type AirPose, advanceAirPose } from '../../paths/air-path.ts';
import { bankForRadiusRadians } from '../../paths/turn.ts';
import { signedRadians } from '../../units/angle.ts';
import { rollOutDirection } from '../ways/turn-ahead.ts';

/** Where a ship of a formation waits for its time: a circle that it leaves, tangentially, at a pose and an instant. */
export interface WaitingCircle {
  readonly leave: AirPose;
  readonly turn: 'left' | 'right';
  readonly radiusMetres: number;
  /** Seconds since the datum, negative before it. */
  readonly leaveSeconds: number;
}

/** How a waiting circle is flown from where the aircraft is. */
export interface CircleCue {
  readonly bankRadians: number;
  /** To roll out on: the leaving heading, or half circles before it while more is left. */
  readonly directionRadians: number;
  /** Left to turn until the leaving pose, whole circles included; negative where it has been passed and no time is left for another. */
  readonly toGoRadians: number;
}

export interface CircleLimits {
  readonly trueAirspeedMetresPerSecond: number;
  readonly maximumBankRadians: number;
}

/** A circle may be this much tighter or wider than planned to come out even; what is left is spent on the way. */
const TIGHTEST = 0.9;
const WIDEST = 1.35;
const FULL_RADIANS = 2 * Math.PI;
const LOOKAHEAD_SECONDS = 5;
const BANK_STEP_RADIANS = (2 * Math.PI) / 180;

/**
 * The bank that keeps a circle and brings the aircraft to the leaving pose in time: whole circles are made a little
 * wider or tighter so that they come out even, all of them touching the leaving pose. The circle's curvature is
 * corrected by the distance from it over the square of a lookahead of 5 s and by the heading off its tangent.
 *
 * @param secondsLeft until it is to be left, positive
 */
export function circleCue(circle: WaitingCircle, pose: AirPose, secondsLeft: number, limits: CircleLimits): CircleCue {
  const sign = circle.turn === 'left' ? 1 : -1;
  const wayMetres = secondsLeft * limits.trueAirspeedMetresPerSecond;
  const phase = phaseLeft(circle, sign, circle.radiusMetres, pose);
  const toGoRadians = phase + Math.round((wayMetres / circle.radiusMetres - phase) / FULL_RADIANS) * FULL_RADIANS;
  const evenly = toGoRadians > 0 ? wayMetres / toGoRadians / circle.radiusMetres : WIDEST;
  const radiusMetres = Math.min(WIDEST, Math.max(TIGHTEST, evenly)) * circle.radiusMetres;
  return {
    bankRadians: Math.round(bankToKeep(circle, sign, radiusMetres, pose, limits) / BANK_STEP_RADIANS) * BANK_STEP_RADIANS,
    directionRadians: rollOutDirection({ toGoRadians, endDirectionRadians: circle.leave.directionRadians }),
    toGoRadians,
  };
}

function bearingFromCentre(circle: WaitingCircle, sign: number, radiusMetres: number, pose: AirPose): { radians: number; metres: number } {
  const centre = advanceAirPose({ ...circle.leave, directionRadians: circle.leave.directionRadians + (sign * Math.PI) / 2 }, radiusMetres, 0);
  const east = pose.airEastMetres - centre.airEastMetres;
  const north = pose.airNorthMetres - centre.airNorthMetres;
  return { radians: Math.atan2(north, east), metres: Math.hypot(east, north) };
}

/** The turn from where the aircraft is abeam of the circle to the leaving pose, 0 to a full circle. */
function phaseLeft(circle: WaitingCircle, sign: number, radiusMetres: number, pose: AirPose): number {
  const leaving = circle.leave.directionRadians - (sign * Math.PI) / 2;
  const left = sign * (leaving - bearingFromCentre(circle, sign, radiusMetres, pose).radians);
  return ((left % FULL_RADIANS) + FULL_RADIANS) % FULL_RADIANS;
}

function bankToKeep(circle: WaitingCircle, sign: number, radiusMetres: number, pose: AirPose, limits: CircleLimits): number {
  const { trueAirspeedMetresPerSecond: speed, maximumBankRadians } = limits;
  const { radians, metres } = bearingFromCentre(circle, sign, radiusMetres, pose);
  const outwardRadians = -sign * signedRadians(pose.directionRadians - (radians + (sign * Math.PI) / 2));
  const lookaheadMetres = LOOKAHEAD_SECONDS * speed;
  const curvature = 1 / radiusMetres + (metres - radiusMetres) / lookaheadMetres ** 2 + (2 * outwardRadians) / lookaheadMetres;
  return Math.min(maximumBankRadians, bankForRadiusRadians(speed, 1 / Math.max(0.2 / radiusMetres, curvature)));
}
