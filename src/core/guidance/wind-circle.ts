import { plainAdvice } from './ways/way-advice.ts';
import { asked } from '../tracking/turn-command.ts';
import { STATE, variance } from '../tracking/estimate.ts';
import { signedRadians } from '../units/angle.ts';
import { REASONS } from './cues.ts';
import type { Flight, FlyingState, WindCircle } from './guidance-state.ts';
import { predictedAt } from './present.ts';
import { rollOutDirection } from './ways/turn-ahead.ts';

type Repositioning = Extract<FlyingState, { phase: 'repositioning' }>;

/** With the wind known no better than this, one standard deviation, a circle is flown before the first smoke. */
const DOUBTFUL_SIGMA = 1.5;
const KNOWN_SIGMA = 0.8;
const CIRCLE_BANK_RADIANS = (30 * Math.PI) / 180;
/** Nearly a whole circle is asked for where the text is hung by the wind: steeper, it takes 40 s instead of 60 and finds as much. */
const HANGING_BANK_RADIANS = (42 * Math.PI) / 180;
/** A timed datum nearer than this leaves no time for it. */
const LONGEST_CIRCLE_SECONDS = 120;
/** The fixes that decide come a little after the circle began. */
const FULL_RADIANS = 2 * Math.PI;

/**
 * The circle that finds the wind before the first smoke: on one heading, wind along it and airspeed cannot be told
 * apart. Null when none is needed, or when it is done; then the state goes on to the stroke.
 */
export function flyWindCircle(state: Repositioning): Repositioning | null {
  const { flight, windCircle } = state;
  if (windCircle === null) return null;
  const direction = predictedAt(flight, flight.atSeconds)!.mean[STATE.direction]!;
  const sign = windCircle.sense === 'left' ? 1 : -1;
  const turnedRadians = windCircle.turnedRadians + sign * signedRadians(direction - windCircle.lastDirectionRadians);
  if (turnedRadians >= FULL_RADIANS || (turnedRadians > leastTurn(flight) && windSigma(flight) < KNOWN_SIGMA)) return null;
  const toGoRadians = FULL_RADIANS - turnedRadians;
  return {
    ...state,
    windCircle: { ...windCircle, turnedRadians, lastDirectionRadians: direction },
    flight: {
      ...flight,
      advice: plainAdvice(
        asked(
          flight.atSeconds,
          windCircle.sense,
          rollOutDirection({ toGoRadians, endDirectionRadians: direction + sign * toGoRadians }),
          flight.setup.hanging === undefined ? CIRCLE_BANK_RADIANS : Math.min(HANGING_BANK_RADIANS, flight.setup.turningBankRadians),
        ),
        REASONS.circlingForWind,
      ),
    },
  };
}

/** Enough to write by; a text that is hung by the wind wants most of the circle, since its place is off by the wind's error for ten minutes. */
function leastTurn({ setup }: Flight): number {
  return setup.hanging === undefined ? FULL_RADIANS / 3 : 0.8 * FULL_RADIANS;
}

/** One standard deviation of the wind's components. */
export function windSigma(flight: Flight): number {
  const { estimate } = flight.tracker;
  if (estimate === null) return Infinity;
  return Math.sqrt((variance(estimate, STATE.windEast) + variance(estimate, STATE.windNorth)) / 2);
}

/** Whether a circle is due: nothing written yet, the wind in doubt, and time for it. */
export function windCircleDue(flight: Flight): boolean {
  const { datumAtSeconds, atSeconds, progress } = flight;
  if (progress.some((one) => one.status === 'flown' || (one.status === 'to-fly' && one.smokedMetres > 0))) return false;
  if (datumAtSeconds !== null && datumAtSeconds - atSeconds < LONGEST_CIRCLE_SECONDS) return false;
  return windSigma(flight) > DOUBTFUL_SIGMA;
}

/** A circle begun now, away from nothing: to the left, as a pilot sees best from the left seat. */
export function windCircleBegun(flight: Flight): WindCircle {
  return { sense: 'left', turnedRadians: 0, lastDirectionRadians: predictedAt(flight, flight.atSeconds)!.mean[STATE.direction]! };
}
