import type { WindVector } from '../earth/wind-vector.ts';
import type { StampTrust } from '../tracking/stamp-trust.ts';
import type { FixVerdict, Tracker } from '../tracking/tracker.ts';
import type { TurnCommand } from '../tracking/turn-command.ts';
import type { ClockQuestion } from './clock-question.ts';
import type { PlaceDoubt } from './doubted-place.ts';
import type { FlightEvent } from './flight-event.ts';
import type { FlightSetup } from './flight-setup.ts';
import type { Hanging } from './hanging/hanging.ts';
import type { FormationProgress } from './formation/formation-progress.ts';
import type { Hands } from './learned-hands.ts';
import type { Way } from './ways/solve-way.ts';

/** How far a stroke has come. */
export type StrokeProgress =
  /** `smokedMetres` from its start carry smoke already: 0, or more where a stroke was broken off. */
  { readonly status: 'to-fly'; readonly smokedMetres: number } | { readonly status: 'flown' } | { readonly status: 'skipped' };

/** What the pilot is to do, before it is put into degrees and words. */
export interface Advice {
  readonly command: TurnCommand;
  /** Seconds until the hand should move the smoke switch; null when nothing is near. */
  readonly smokeInSeconds: number | null;
  readonly crossTrackMetres: number | null;
  readonly because: string;
  /** `inSeconds` until the hand should move for it. */
  readonly next: { readonly command: TurnCommand; readonly inSeconds: number } | null;
}

/** What every phase of a flight carries. */
export interface Flight {
  readonly setup: FlightSetup;
  readonly atSeconds: number;
  readonly wallMilliseconds: number;
  readonly tracker: Tracker;
  readonly stampTrust: StampTrust;
  readonly lastVerdict: FixVerdict | null;
  /** When the last used fix arrived; minus infinity before the first. */
  readonly lastUsedAtSeconds: number;
  /** Why no fixes come, where the platform says so. */
  readonly fixesLost: 'permission' | 'unavailable' | 'hidden' | null;
  /** Cues given in the last seconds, oldest first: what the pilot is believed to be doing. */
  readonly commands: readonly TurnCommand[];
  /** When the drift is zero, monotonic; null until the first smoke when the datum waits for it. */
  readonly datumAtSeconds: number | null;
  /** A timed datum was put on satellite time by the stamps of the fixes. */
  readonly datumOnStamps: boolean;
  /**
   * While the datum waits for the first smoke: when that is expected. The letters lie in the air that will stand over
   * their place then; it moves only when the way turns out much longer or shorter, so that the goal stands still.
   */
  readonly expectedDatumAtSeconds: number | null;
  /** Whether a circle to find the wind is still to be thought of: once, when the first fixes are in. */
  readonly windCircleDecided: boolean;
  /** How far the pilot moved the text from its planned place, before the first smoke. */
  readonly movedEastMetres: number;
  readonly movedNorthMetres: number;
  /** Null until the text is hung for a wind found in flight, and where that is not asked for. */
  readonly hanging: Hanging | null;
  /** The wind's average over the flight so far, and over how long; null until it is known well enough to count. */
  readonly windAverage: { readonly wind: WindVector; readonly seconds: number } | null;
  /** The clocks went apart: nothing is cued until a fresh fix. */
  readonly clockInDoubt: boolean;
  /** Whether the page slept or the clock was set; null while the clocks agree. */
  readonly clockQuestion: ClockQuestion | null;
  /** The longest sleep since the place was last sure. */
  readonly awaySeconds: number;
  /** The receiver's stamp less the monotonic clock, at the last fix that had one; null before it. */
  readonly stampLessFlightSeconds: number | null;
  /** As the receiver gave it last; null while it gives none. */
  readonly altitudeMetres: number | null;
  /** What is doubted of the word's place, until a touch takes it away; null while nothing is. */
  readonly placeDoubt: PlaceDoubt | null;
  readonly progress: readonly StrokeProgress[];
  /** Indexes of all strokes in the order in which they are flown. */
  readonly sequence: readonly number[];
  /** Smoke so far, by the true switch where it is marked, else as cued. */
  readonly smokedSeconds: number;
  readonly smokeMarked: 'on' | 'off' | null;
  /** When the smoke cue last changed; null before the first. */
  readonly smokeCuedAtSeconds: number | null;
  /** Between the cue's change and the hand's: the setup's, then as the true switch shows it. */
  readonly reactionSeconds: number;
  /** The pilot's hands in turns, as the flight shows them. */
  readonly hands: Hands;
  /** The pilot only listens: the smoke is said that much before it is due. */
  readonly byEar: boolean;
  /** What was said to such a pilot in the last seconds, oldest first; what is shown is then not what is flown. */
  readonly told: readonly TurnCommand[];
  /** The last turn that was asked for, by the voice where only that is heard, since when, and for how long it was straight before; null before the first. */
  readonly turnCue: {
    readonly sense: 'left' | 'right';
    readonly fromSeconds: number;
    readonly bankRadians: number;
    readonly straightSeconds: number;
  } | null;
  /** Since when straight flight is asked for; null in a turn. */
  readonly straightSinceSeconds: number | null;
  /** Before the pilot's last touch, until the next stroke begins. */
  readonly undo: GuidanceState | null;
  /** Which touch that was. */
  readonly undoTouch: FlightEvent['kind'] | null;
  readonly advice: Advice | null;
  /** Null for a ship alone. */
  readonly formation: FormationProgress | null;
}

/** A circle flown before the first smoke, since only turning tells wind from airspeed. */
export interface WindCircle {
  readonly sense: 'left' | 'right';
  readonly turnedRadians: number;
  readonly lastDirectionRadians: number;
}

export type GuidanceState =
  /** No flight. */
  | { readonly phase: 'idle' }
  /** Smoke off, on the way to a stroke. */
  | {
      readonly phase: 'repositioning';
      readonly flight: Flight;
      readonly strokeIndex: number;
      readonly way: Way | null;
      /** On the stroke's own line before its start, wings level. */
      readonly onRunIn: boolean;
      /** Why the last run-in was broken off; null when it was not. */
      readonly goAround: string | null;
      /** The circle that finds the wind, while it is flown. */
      readonly windCircle: WindCircle | null;
      /** The run-out after a stroke lasts until then. */
      readonly runOutUntilSeconds: number;
    }
  /** Smoke on. */
  | {
      readonly phase: 'onStroke';
      readonly flight: Flight;
      readonly strokeIndex: number;
      /** Where along the stroke the aircraft is believed to be now. */
      readonly alongMetres: number;
      readonly onSinceSeconds: number;
      /** Corrections of the drift found while the smoke is on; they enter when it is off. */
      readonly deferredEastMetres: number;
      readonly deferredNorthMetres: number;
    }
  | { readonly phase: 'holding'; readonly flight: Flight; readonly strokeIndex: number }
  | { readonly phase: 'finished'; readonly flight: Flight; readonly how: 'complete' | 'knocked-off' | 'given-up' };

export type FlyingState = Exclude<GuidanceState, { readonly phase: 'idle' }>;

export const initialState: GuidanceState = { phase: 'idle' };
