import type { FlightSetup } from '../guidance/flight-setup.ts';
import { airPathLengthMetres } from '../paths/air-path.ts';
import type { FrameOffset } from './frame-offset.ts';
import type { FlownStroke, StrokeScore } from './stroke-score.ts';

/** Where a letter stands against its place in the word. */
export interface LetterPlace extends FrameOffset {
  readonly letterIndex: number;
  /** One standard deviation of each component: what the wind, known only so well, leaves open. */
  readonly sigmaMetres: number;
}

/** How well a letter came out, its place in the word apart from its shape. */
export interface LetterScore {
  readonly letterIndex: number;
  readonly character: string;
  /** Root mean square distance from the letter's lines once it is moved to its place; null without smoke. */
  readonly shapeErrorMetres: number | null;
  /** The same over the letter's height. */
  readonly shapeErrorHeights: number | null;
  /** Null without smoke. */
  readonly place: LetterPlace | null;
  /** Share of the letter's lines, by length, that carry smoke. */
  readonly coverage: number;
  /** Strokes without any smoke. */
  readonly strokesMissing: number;
  readonly redoneCount: number;
  /** Flight time of its first and last smoke; null without. */
  readonly fromSeconds: number | null;
  readonly toSeconds: number | null;
}

/** The score of each letter, in reading order; `flown` with each letter in its own place. */
export function letterScores(
  setup: FlightSetup,
  flown: readonly FlownStroke[],
  strokes: readonly StrokeScore[],
  places: readonly LetterPlace[],
): LetterScore[] {
  return letterIndexes(setup).map((letterIndex) => {
    const own = strokes.filter((score) => score.letterIndex === letterIndex);
    const samples = own.flatMap(({ strokeIndex }) => flown[strokeIndex]?.samples ?? []);
    const squares = samples.reduce((sum, { crossTrackMetres }) => sum + crossTrackMetres * crossTrackMetres, 0);
    const shapeErrorMetres = samples.length === 0 ? null : Math.sqrt(squares / samples.length);
    // As planned: a stroke that was never flown weighs what it would have.
    const weights = own.map(({ strokeIndex }) => airPathLengthMetres(setup.strokes[strokeIndex]!.path));
    return {
      letterIndex,
      character: own[0]?.character ?? '',
      shapeErrorMetres,
      shapeErrorHeights: shapeErrorMetres === null ? null : shapeErrorMetres / setup.letterHeightMetres,
      place: samples.length === 0 ? null : (places.find((place) => place.letterIndex === letterIndex) ?? null),
      coverage: own.reduce((sum, { coverage }, index) => sum + coverage * weights[index]!, 0) / weights.reduce((sum, weight) => sum + weight, 0),
      strokesMissing: own.filter(({ coverage }) => coverage === 0).length,
      redoneCount: own.reduce((sum, { redoneCount }) => sum + redoneCount, 0),
      fromSeconds: samples.length === 0 ? null : samples.reduce((least, { atSeconds }) => Math.min(least, atSeconds), Infinity),
      toSeconds: samples.length === 0 ? null : samples.reduce((most, { atSeconds }) => Math.max(most, atSeconds), -Infinity),
    };
  });
}

/** The letters of a flight, in reading order. */
export function letterIndexes(setup: FlightSetup): number[] {
  return [...new Set(setup.strokes.map(({ letterIndex }) => letterIndex))].sort((one, other) => one - other);
}
