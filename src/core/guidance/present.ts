import type { AirPose } from '../paths/air-path.ts';
import { type Estimate, STATE } from '../tracking/estimate.ts';
import { type Motion, propagate } from '../tracking/propagate.ts';
import type { Flight, FlyingState } from './guidance-state.ts';
import { watchedAsNow } from './watched-as-now.ts';

type OnStroke = Extract<FlyingState, { phase: 'onStroke' }>;

/**
 * How far the truth wanders from the model, chosen on simulated flights (tests/flight): turn rate by hands that
 * differ, airspeed by 3 % in a minute, wind by 1.5 kt in five minutes.
 */
const NOISE = { direction: 1.5e-4, turnRateSteady: 6e-4, turnRateChanging: 1.2e-2, airspeed: 0.06, wind: 0.004 } as const;

/** Gusts of 1.5 m/s that last 4 s carry an aircraft off at random, 18 m2/s, and leave the smoke where it was; a sixth of it is expected, which costs calm air nothing. */
const GUSTY_NOISE = { ...NOISE, position: 3 } as const;

/**
 * A compass read 2 degrees wrong is a crosswind of 2 kt to a filter that takes the shown heading for the flown one; with
 * this slack the wind before the first smoke is found to 1.9 instead of 2.3 kt (median of 24 flights at the desk).
 */
const HEADING_SLACK_RADIANS = (2 * Math.PI) / 180;

/** A stroke is held over a loss for no longer than this, whatever the covariance says: 50 words at the desk, 5 s lost every minute. */
export const HELD_AT_MOST_SECONDS = 8;

/** What the pilot is believed to fly by: what is shown, or what was said where only the ear is led. */
export function flownCommands({ byEar, told, commands }: Pick<Flight, 'byEar' | 'told' | 'commands'>): Flight['commands'] {
  return byEar && told.length > 0 ? told : commands;
}

/** The motion model that the flight's estimator works with. */
export function motionOf(flight: Flight): Motion {
  const watched = watchedAsNow(flight.setup);
  return {
    pilot: {
      reactionSeconds: flight.hands.turnReactionSeconds,
      turnShare: flight.hands.turnShare,
      rollRateRadiansPerSecond: flight.setup.rollRateRadiansPerSecond,
      ...(watched ? { headingSlackRadians: HEADING_SLACK_RADIANS } : {}),
    },
    commands: flownCommands(flight),
    noise: watched ? GUSTY_NOISE : NOISE,
    datumAtSeconds: flight.datumAtSeconds,
    // A held stroke goes on as cued, and without a cue the wings are level: the first fix after a loss is weighed against that.
    ...(watched ? { longestGapSeconds: HELD_AT_MOST_SECONDS, freePilot: true } : {}),
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
 */
export function airPoseOf(estimate: Estimate, flight: Flight): AirPose {
  const { mean } = estimate;
  const drift = driftOf(estimate, flight);
  return {
    airEastMetres: mean[STATE.east]! - drift.eastMetres - flight.movedEastMetres,
    airNorthMetres: mean[STATE.north]! - drift.northMetres - flight.movedNorthMetres,
    directionRadians: mean[STATE.direction]!,
  };
}

/** The same in the frame that does not jump while the smoke is on: corrections of the past drift are left out. */
export function frozenPoseOf(estimate: Estimate, { flight, deferredEastMetres, deferredNorthMetres }: OnStroke): AirPose {
  const pose = airPoseOf(estimate, flight);
  return { ...pose, airEastMetres: pose.airEastMetres + deferredEastMetres, airNorthMetres: pose.airNorthMetres + deferredNorthMetres };
}

/** How far the air stands from where it stood, or will stand, at the datum. */
export function driftOf(estimate: Estimate, flight: Flight): { readonly eastMetres: number; readonly northMetres: number } {
  const { mean, atSeconds } = estimate;
  const datum = flight.datumAtSeconds ?? flight.expectedDatumAtSeconds ?? atSeconds;
  if (flight.datumAtSeconds !== null && atSeconds >= datum) return { eastMetres: mean[STATE.driftEast]!, northMetres: mean[STATE.driftNorth]! };
  return { eastMetres: mean[STATE.windEast]! * (atSeconds - datum), northMetres: mean[STATE.windNorth]! * (atSeconds - datum) };
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
