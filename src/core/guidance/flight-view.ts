import type { AirPath, AirPose } from '../paths/air-path.ts';
import type { WordStanding } from './hanging/word-standing.ts';

/** What a screen may draw of a flight beside its cues: the geometry behind them, in the air-mass frame. */
export interface FlightView {
  /** Where the aircraft is believed to be now; null when nothing is trusted. */
  readonly own: AirPose | null;
  /** The way from here to the stroke's start while repositioning; null otherwise. */
  readonly way: AirPath | null;
  /** The stroke being flown or flown next; null when none is left. */
  readonly stroke: AirPath | null;
  /** How much of that stroke carries smoke already, from its start. */
  readonly strokeDoneMetres: number;
  /** Indexes into the setup's strokes. */
  readonly doneStrokeIndexes: readonly number[];
  readonly skippedStrokeIndexes: readonly number[];
  /** What is doubted of time and place, in words; shown until it is settled. */
  readonly doubts: readonly string[];
  /** The word's place is doubted: a touch says where it is. */
  readonly placeDoubted: boolean;
  /** Whether the screen was off or the clock was set, by so many seconds, is for the pilot to say; null else. */
  readonly askedSeconds: number | null;
  /** Where the word will stand and how it will lean, by the wind that is known; null before it is hung, and where nothing is trusted. */
  readonly standing: WordStanding | null;
  /** East of true north positive: what is flown is read magnetic. */
  readonly variationDegrees: number;
  /** One standard deviation of the wind's components. */
  readonly windSigmaMetresPerSecond: number | null;
}
