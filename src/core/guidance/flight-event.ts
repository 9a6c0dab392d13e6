import type { WindVector } from '../earth/wind-vector.ts';
import type { AirPath } from '../paths/air-path.ts';
import type { Fix } from '../tracking/fix.ts';
import type { FlightSetup } from './flight-setup.ts';

/**
 * What happened in a flight, as a fact in the past tense. Every event that reached the reducer is logged, so the
 * same events through the same reducer give the same cues. `atSeconds` is monotonic since the flight began, carried
 * on by the wall clock over a time when the page was not open; the wall clock stands beside it because either may
 * fail.
 */
export type FlightEvent = { readonly atSeconds: number; readonly wallMilliseconds: number } & FlightFact;

export type FlightFact =
  | { readonly kind: 'flightStarted'; readonly setup: FlightSetup }
  /** The page was opened anew in the middle of a flight. */
  | { readonly kind: 'flightResumed' }
  | { readonly kind: 'fixReceived'; readonly fix: Fix }
  | { readonly kind: 'fixesLost'; readonly reason: 'permission' | 'unavailable' | 'hidden' }
  | { readonly kind: 'clockAdvanced' }
  /** The true smoke switch, marked by a key, a button or a touch. */
  | { readonly kind: 'smokeSwitched'; readonly smoke: 'on' | 'off' }
  /** The pilot's answer where the fixes could not tell: the screen was off, or else the clock was set. */
  | { readonly kind: 'clockAnswered'; readonly slept: boolean }
  /** Whether the pilot flies by ear alone, the screen dark. */
  | { readonly kind: 'earsChosen'; readonly byEar: boolean }
  /** What a pilot who flies by ear was told to fly, and when its last word falls. */
  | {
      readonly kind: 'orderSaid';
      readonly turn: 'left' | 'right' | 'straight';
      readonly headingMagneticDegrees: number;
      readonly bankDegrees: number;
      readonly endsAtSeconds: number;
    }
  /**
   * The order and directions of all strokes that are left were chosen anew; seconds from each one's beginning to the end of all. `chosen`
   * where the pilot chose the first of them, which is undone like a touch.
   */
  | {
      readonly kind: 'restOrdered';
      readonly rest: readonly { readonly strokeIndex: number; readonly path: AirPath; readonly restSeconds: number }[];
      readonly chosen?: true;
    }
  | { readonly kind: 'strokeRedone' }
  | { readonly kind: 'strokeSkipped' }
  | { readonly kind: 'held' }
  | { readonly kind: 'holdReleased' }
  | { readonly kind: 'datumMovedHere' }
  /** Hung as briefed after all, whatever wind was found. */
  | { readonly kind: 'hangingRefused' }
  /**
   * The wind for which all ships of a formation hang the text, null for as briefed: as the lead said on the radio, as it told `by` the
   * link, or as this ship hangs it alone, having refused what the lead hangs.
   */
  | { readonly kind: 'hangingGiven'; readonly wind: WindVector | null; readonly by?: 'link' | 'refusal' }
  /**
   * By how much the lead's datum is later than this ship's, negative when it is sooner, as the link has it; null once they agree. `kept`
   * where the pilot has heard of it and keeps this ship's own.
   */
  | { readonly kind: 'leadTimed'; readonly laterSeconds: number | null; readonly kept?: true }
  | { readonly kind: 'datumTimed'; readonly datumWallMilliseconds: number }
  | { readonly kind: 'knockedOff' }
  | { readonly kind: 'lastTouchUndone' };
