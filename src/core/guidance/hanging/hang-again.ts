import type { WindVector } from '../../earth/wind-vector.ts';
import { type Estimate, STATE } from '../../tracking/estimate.ts';
import type { Flight, FlyingState } from '../guidance-state.ts';
import { behindPlanSeconds } from '../behind-plan.ts';
import { hangText } from './hang-text.ts';
import { hangWithin } from './hang-within.ts';
import type { Hanging, HangingWish } from './hanging.ts';

type Repositioning = Extract<FlyingState, { phase: 'repositioning' }>;

/** The place is kept while a new one would not be this far from it. */
const NOTICED_METRES = 100;
/**
 * With less than this to the first smoke the goal stands still. The last turn tells most of the wind: at the desk, 100 words 10 kt
 * off, each component as known at the first smoke misses the wind of the ten minutes to come by 0.80 m/s (rms), 25 s before by 0.87.
 */
const SETTLED_SECONDS = 12;
/** How much the wind's average counts against the wind of now for the ten minutes to come; see {@link windAhead}. */
const AVERAGE_SHARE = 0.4;

/** The text hung for the wind as it is known now, before the first smoke; null where nothing changes. */
export function hungAgain(state: Repositioning): Repositioning | null {
  const { flight, way } = state;
  const { setup, hanging, smokeCuedAtSeconds } = flight;
  const { estimate } = flight.tracker;
  if (setup.hanging === undefined || smokeCuedAtSeconds !== null || estimate === null) return null;
  if (hanging !== null && (hanging.kind !== 'found-wind' || state.onRunIn || (way !== null && way.seconds < SETTLED_SECONDS))) return null;
  const wind = windAhead(flight, estimate);
  // Begun late against its time the text ends so much later, and the air carries it on until then.
  const lateSeconds = behindPlanSeconds(state);
  const wish = endingLate(setup.hanging, lateSeconds);
  if (hanging !== null && apartMetres(hangText(wish, wind), hangText(endingLate(setup.hanging, hanging.lateSeconds ?? 0), hanging.wind)) < NOTICED_METRES)
    return null;
  const next: Hanging = { ...hangWithin(wish, wind), ...(lateSeconds > 0 ? { lateSeconds } : {}) };
  const east = next.movedEastMetres - (hanging?.movedEastMetres ?? 0);
  const north = next.movedNorthMetres - (hanging?.movedNorthMetres ?? 0);
  return {
    ...state,
    way: hanging === null ? null : way,
    flight: {
      ...flight,
      hanging: next,
      movedEastMetres: flight.movedEastMetres + east,
      movedNorthMetres: flight.movedNorthMetres + north,
      expectedDatumAtSeconds: hanging === null ? null : flight.expectedDatumAtSeconds,
    },
  };
}

function endingLate(wish: HangingWish, lateSeconds: number): HangingWish {
  return { ...wish, writingSeconds: wish.writingSeconds + lateSeconds };
}

function apartMetres(one: Hanging, other: Hanging): number {
  return Math.hypot(one.movedEastMetres - other.movedEastMetres, one.movedNorthMetres - other.movedNorthMetres);
}

/**
 * The wind that will carry the smoke while it is written and read. A wind that wanders about its mean with a memory of
 * five minutes (an Ornstein-Uhlenbeck process) will on the average of the next ten minutes have gone half of the way back to
 * that mean, of which the flight so far is what is known.
 */
export function windAhead({ windAverage }: Flight, { mean }: Estimate): WindVector {
  const now = { eastMetresPerSecond: mean[STATE.windEast]!, northMetresPerSecond: mean[STATE.windNorth]! };
  const average = windAverage?.wind ?? now;
  return {
    eastMetresPerSecond: now.eastMetresPerSecond + AVERAGE_SHARE * (average.eastMetresPerSecond - now.eastMetresPerSecond),
    northMetresPerSecond: now.northMetresPerSecond + AVERAGE_SHARE * (average.northMetresPerSecond - now.northMetresPerSecond),
  };
}
