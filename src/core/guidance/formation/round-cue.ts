import { advanceAirPose, type AirPose } from '../../paths/air-path.ts';
import { bankForRadiusRadians } from '../../paths/turn.ts';
import { TIGHTEST_ROUND, WIDEST_ROUND } from '../../plan/circle-kept-clear.ts';
import { signedRadians } from '../../units/angle.ts';
import { rollOutDirection } from '../ways/turn-ahead.ts';
import type { CircleCue, CircleLimits, WaitingCircle } from './waiting-circle.ts';

/** Where a ship stands on its circle. */
export interface OnCircle {
  readonly fromCentreMetres: number;
  /** Of the ship from the centre, anticlockwise from east. */
  readonly bearingRadians: number;
  /** How far the nose points outwards of the circle's tangent. */
  readonly outwardRadians: number;
  /** To turn until the leaving pose, from a little past it to nearly a round before it. */
  readonly phaseRadians: number;
}

const FULL_RADIANS = 2 * Math.PI;
/** Past the leaving pose by more than this a round has begun. */
export const PASSED_RADIANS = 0.35;
const LOOKAHEAD_SECONDS = 5;
const BANK_STEP_RADIANS = (2 * Math.PI) / 180;

/** Where a pose stands on a circle that is left tangentially. */
export function standsOnCircle({ leave, turn, radiusMetres }: WaitingCircle, pose: AirPose): OnCircle {
  const sign = turn === 'left' ? 1 : -1;
  const centre = advanceAirPose({ ...leave, directionRadians: leave.directionRadians + (sign * Math.PI) / 2 }, radiusMetres, 0);
  const east = pose.airEastMetres - centre.airEastMetres;
  const north = pose.airNorthMetres - centre.airNorthMetres;
  const bearingRadians = Math.atan2(north, east);
  const toLeave = sign * (leave.directionRadians - (sign * Math.PI) / 2 - bearingRadians) + PASSED_RADIANS;
  return {
    fromCentreMetres: Math.hypot(east, north),
    bearingRadians,
    outwardRadians: -sign * signedRadians(pose.directionRadians - (bearingRadians + (sign * Math.PI) / 2)),
    phaseRadians: (((toLeave % FULL_RADIANS) + FULL_RADIANS) % FULL_RADIANS) - PASSED_RADIANS,
  };
}

/**
 * The bank that brings a ship round its circle to the leaving pose in time: rounds of one centre, all a little wider or
 * tighter, so that whole ones come out even: nothing but the radius changes, so the turn that is left
 * is the same whatever the radius.
 *
 * @param secondsLeft until the circle is to be left; where it is past, the next time the pose is met
 */
export function roundCue(circle: WaitingCircle, pose: AirPose, secondsLeft: number, limits: CircleLimits): CircleCue {
  const { trueAirspeedMetresPerSecond: speed, maximumBankRadians, turnShare } = limits;
  const { fromCentreMetres, outwardRadians, phaseRadians } = standsOnCircle(circle, pose);
  const wayMetres = Math.max(0, secondsLeft) * speed;
  const rounds = Math.max(0, Math.round((wayMetres / circle.radiusMetres - phaseRadians) / FULL_RADIANS));
  const toGoRadians = phaseRadians + rounds * FULL_RADIANS;
  const evenly = toGoRadians > 0 ? wayMetres / toGoRadians / circle.radiusMetres : 1;
  const radiusMetres = Math.min(WIDEST_ROUND, Math.max(TIGHTEST_ROUND, evenly)) * circle.radiusMetres;
  const lookaheadMetres = LOOKAHEAD_SECONDS * speed;
  const curvature = 1 / radiusMetres + (fromCentreMetres - radiusMetres) / lookaheadMetres ** 2 + (2 * outwardRadians) / lookaheadMetres;
  const bankRadians = Math.min(maximumBankRadians, bankForRadiusRadians(speed, turnShare / Math.max(0.2 / radiusMetres, curvature)));
  return {
    bankRadians: Math.round(bankRadians / BANK_STEP_RADIANS) * BANK_STEP_RADIANS,
    directionRadians: rollOutDirection({ toGoRadians, endDirectionRadians: circle.leave.directionRadians }),
    toGoRadians,
  };
}
