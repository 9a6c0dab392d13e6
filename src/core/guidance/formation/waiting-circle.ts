import type { AirPose } from '../../paths/air-path.ts';

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
  /** Turn rate flown over the one that a bank gives. */
  readonly turnShare: number;
}
