import type { AirPose } from '../planning/air-path.ts';
import { type Estimate, STATE } from '../tracking/estimate.ts';
import { type Motion, propagate } from '../tracking/propagate.ts';
import type { Flight } from './guidance-state.ts';

/**
 * How far the truth wanders from the model, chosen on simulated flights (tests/flight): turn rate by hands that
 * differ, airspeed by 3 % in a minute, wind by 1.5 kt in five minutes.
 */
const NOISE = { turnRateSteady: 1e-4, turnRateChanging: 4e-3, airspeed: 0.06, wind: 0.004 } as const;

/** The motion model that the flight's estimator works with. */
export function motionOf(flight: Flight): Motion {
  return {
    pilot: { reactionSeconds: flight.setup.reactionSeconds, rollRateRadiansPerSecond: flight.setup.rollRateRadiansPerSecond },
    commands: flight.commands,
    noise: NOISE,
    datumAtSeconds: flight.datumAtSeconds,
    plannedAirspeedMetresPerSecond: flight.setup.trueAirspeedMetresPerSecond,
  };
}

/** The state believed at a time, or null while no fix is trusted. */
export function predictedAt(flight: Flight, atSeconds: number): Estimate | null {
  const { estimate } = flight.tracker;
  return estimate === null ? null : propagate(estimate, atSeconds, motionOf(flight), false);
}

/**
 * Where the aircraft is in the air-mass frame: position less drift. Before the datum the drift is what the wind
 * will have done until then, with the opposite sign, so that the letters stay over their place on the ground until
 * the datum.
 *
 * @param secondsToDatum from the estimate's time; used only before the datum
 */
export function airPoseOf(estimate: Estimate, flight: Flight, secondsToDatum: number): AirPose {
  const { mean } = estimate;
  const before = flight.datumAtSeconds === null || estimate.atSeconds < flight.datumAtSeconds;
  const driftEast = before ? -mean[STATE.windEast]! * secondsToDatum : mean[STATE.driftEast]!;
  const driftNorth = before ? -mean[STATE.windNorth]! * secondsToDatum : mean[STATE.driftNorth]!;
  return {
    airEastMetres: mean[STATE.east]! - driftEast - flight.movedEastMetres,
    airNorthMetres: mean[STATE.north]! - driftNorth - flight.movedNorthMetres,
    directionRadians: mean[STATE.direction]!,
  };
}

/** Age of the last trusted fix, by when it was measured; null before the first. */
export function fixAgeSeconds(flight: Flight): number | null {
  const { estimate } = flight.tracker;
  return estimate === null ? null : flight.atSeconds - estimate.atSeconds;
}

/** Beyond this age of the last fix nothing is cued; from 1.5 s the screen cautions. */
export const BLANK_AGE_SECONDS = 3;
/** A trusted fix that arrived longer ago than this is ageing. */
const AGEING_SECONDS = 1.5;

/** How the position stands: a second between fixes and a second's lateness are in order. */
export function fixHealth(flight: Flight): 'good' | 'ageing' | 'lost' {
  if (!isTrusted(flight)) return 'lost';
  return flight.atSeconds - flight.lastUsedAtSeconds > AGEING_SECONDS ? 'ageing' : 'good';
}

/** Whether the position is trusted enough to cue by. */
export function isTrusted(flight: Flight): boolean {
  const age = fixAgeSeconds(flight);
  return age !== null && age < BLANK_AGE_SECONDS && !flight.clockInDoubt;
}
