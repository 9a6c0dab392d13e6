import type { Site } from '../earth/site-frame.ts';
import type { WindVector } from '../earth/wind-vector.ts';
import type { AirPath } from '../paths/air-path.ts';
import type { HangingWish } from './hanging/hanging.ts';
import type { FormationSetup } from './formation/formation-setup.ts';
import type { WaitingCircle } from './formation/waiting-circle.ts';
import type { SecondsRange } from '../sky/reading-window.ts';

/** A stroke to be flown: in flying order and direction, in the air-mass frame. */
export interface FlightStroke {
  readonly letterIndex: number;
  readonly character: string;
  readonly path: AirPath;
  /** Planned start, seconds since the datum; with ships in formation the stroke is not begun much earlier. */
  readonly plannedStartSeconds: number;
}

/**
 * What ties the air-mass frame to the ground: the instant at which the drift is zero. `first-smoke` is the
 * moment the first smoke is cued; `at-time` is a wall-clock instant, shared by ships that start on a time hack.
 */
export type DatumChoice =
  | { readonly kind: 'first-smoke' }
  | {
      readonly kind: 'at-time';
      readonly wallMilliseconds: number;
      /** Called on the radio and counted from there; a time without a call is satellite time wherever the fixes carry it. */
      readonly called?: true;
    };

/** Everything a flight needs to know and that does not change while it lasts. */
export interface FlightSetup {
  readonly jobId: string;
  readonly shipIndex: number;
  readonly shipName: string;
  readonly site: Site;
  /** Height flown, above mean sea level. */
  readonly layerHeightMetres: number;
  /** Magnetic variation at the site, east positive. */
  readonly variationDegrees: number;
  readonly forecastWind: WindVector;
  readonly trueAirspeedMetresPerSecond: number;
  readonly writingBankRadians: number;
  readonly turningBankRadians: number;
  readonly maximumBankRadians: number;
  readonly rollRateRadiansPerSecond: number;
  readonly runInSeconds: number;
  readonly runOutSeconds: number;
  readonly valveOnSeconds: number;
  readonly valveOffSeconds: number;
  /** Between the cue's change and the hand's. */
  readonly reactionSeconds: number;
  readonly oilKilograms: number;
  readonly oilKilogramsPerSecond: number;
  readonly letterHeightMetres: number;
  readonly strokes: readonly FlightStroke[];
  readonly datum: DatumChoice;
  /** Where the ship waits for its first stroke; absent for a ship alone. */
  readonly waitingCircle?: WaitingCircle;
  /** How the text is to hang for a wind found in flight; absent, it hangs as planned. */
  readonly hanging?: HangingWish;
  /** Watched as flights are today, see `watched-as-now.ts`; left out by setups of older logs. */
  readonly version?: 2;
  /** Until when the smoke reads in seconds since the datum, by this tablet's own measure of smoke; absent in older logs. */
  readonly readsUntil?: SecondsRange;
  /** How the order of what is left is bound when it is chosen anew; absent where it is not, and in older logs. */
  readonly rest?: { readonly rule: 'letter-by-letter' | 'finished-in-turn' | 'any'; readonly directionsKept: boolean };
  /** Absent for a ship alone, and in logs of before the timetable. */
  readonly formation?: FormationSetup;
}
