import type { FlightSetup } from '../guidance/flight-setup.ts';
import { type AirTrack, airTrack } from './air-track.ts';
import { crowdScore, type CrowdScore } from './crowd-score.ts';
import { type FlightScore, flightScore } from './flight-score.ts';
import { type FrameOffset, frameOffset } from './frame-offset.ts';
import { letterIndexes, type LetterPlace, type LetterScore, letterScores } from './letter-score.ts';
import type { CueChange, Replayed } from './replay.ts';
import { FORECAST_SIGMA_METRES_PER_SECOND, type ShipLog } from './ship-log.ts';
import { type SeenSmoke, type SmokeInterval, smokeIntervals } from './smoke-intervals.ts';
import { type FlownStroke, flownStrokes, type StrokeScore, strokeScores } from './stroke-score.ts';
import type { WindHistory } from './wind-history.ts';

/** How a ship flew, judged. */
export interface ShipDebrief {
  readonly log: ShipLog;
  /** Flight time at which the frame and the ground were one; the first smoke when the log does not say. */
  readonly datumSeconds: number;
  /** In the frame of the datum, where the planned strokes lie but for `offset`. */
  readonly air: AirTrack | null;
  /** What the pilot was told, one entry for each change. */
  readonly changes: readonly CueChange[];
  readonly intervals: readonly SmokeInterval[];
  readonly strokes: readonly FlownStroke[];
  readonly strokeScores: readonly StrokeScore[];
  readonly letterScores: readonly LetterScore[];
  /** How far the whole text hung from its place in the air. */
  readonly offset: FrameOffset;
  /** The same with what the pilot moved it by: taken off the flown places, it lays them over the planned strokes. */
  readonly laid: FrameOffset;
  readonly flight: FlightScore;
  /** What the crowd saw; null where the flight knows of none. */
  readonly crowd: CrowdScore | null;
}

/** A whole text may hang far from its place; a letter only as far as the wind is unknown, and a little. */
const TEXT_SIGMA_METRES = 500;
const LEAST_PLACE_SIGMA_METRES = 3;
const NOWHERE: FrameOffset = { eastMetres: 0, northMetres: 0 };

/**
 * Judges a flight, once its log has been replayed to the end.
 *
 * @param replayed null for a track of another recorder, which nobody cued: its nth smoke is taken for the nth stroke
 *   when there are as many of both
 * @param seen smoke somebody saw; empty when nobody did
 */
export function debriefShip(log: ShipLog, replayed: Replayed | null, seen: readonly SeenSmoke[]): ShipDebrief {
  const { setup, events, times, track, wind } = log;
  const startSeconds = replayed?.startSeconds ?? track.atSeconds[0] ?? 0;
  const endSeconds = replayed?.endSeconds ?? track.atSeconds.at(-1) ?? 0;
  const changes = replayed?.changes ?? [];
  const found = smokeIntervals(events, times, changes, setup, seen, endSeconds);
  const inOrder = replayed === null && found.length === setup.strokes.length;
  const intervals = inOrder ? found.map((interval, strokeIndex) => ({ ...interval, strokeIndex })) : found;
  const datumSeconds = replayed?.datumSeconds ?? intervals[0]?.onSeconds ?? startSeconds;
  const moved = { eastMetres: replayed?.movedEastMetres ?? 0, northMetres: replayed?.movedNorthMetres ?? 0 };
  const air = wind === null ? null : airTrack(track, wind, datumSeconds);
  const inText = air === null ? [] : flownStrokes(setup.strokes, intervals, air, () => moved);
  const offset = frameOffset(
    inText.flatMap(({ samples }) => samples),
    TEXT_SIGMA_METRES,
  );
  const text = { eastMetres: moved.eastMetres + offset.eastMetres, northMetres: moved.northMetres + offset.northMetres };
  const places =
    air === null
      ? []
      : letterPlaces(
          setup,
          flownStrokes(setup.strokes, intervals, air, () => text),
          wind,
        );
  const placeOf = (letterIndex: number): FrameOffset => places.find((place) => place.letterIndex === letterIndex) ?? NOWHERE;
  const strokes =
    air === null
      ? []
      : flownStrokes(setup.strokes, intervals, air, ({ letterIndex }) => {
          const place = placeOf(letterIndex);
          return { eastMetres: text.eastMetres + place.eastMetres, northMetres: text.northMetres + place.northMetres };
        });
  const scores = strokeScores(setup, strokes, datumSeconds);
  const flight = flightScore(log, changes, intervals, scores, air, replayed?.skippedCount ?? 0);
  return {
    log,
    datumSeconds,
    air,
    changes,
    intervals,
    strokes,
    strokeScores: scores,
    letterScores: letterScores(setup, strokes, scores, places),
    offset,
    laid: text,
    flight,
    crowd: crowdScore(log, replayed?.hanging ?? null, text, datumSeconds, flight.lastSmokeSeconds),
  };
}

/** Each letter's own move against the text, as far as its smoke says more than the wind leaves open. */
function letterPlaces(setup: FlightSetup, flown: readonly FlownStroke[], wind: WindHistory | null): LetterPlace[] {
  const times = flown.flatMap(({ samples }) => samples.map(({ atSeconds }) => atSeconds));
  const middleSeconds = mean(times);
  return letterIndexes(setup).map((letterIndex) => {
    const samples = flown.filter(({ strokeIndex }) => setup.strokes[strokeIndex]?.letterIndex === letterIndex).flatMap((stroke) => stroke.samples);
    const apartSeconds = samples.length === 0 ? 0 : Math.abs(mean(samples.map(({ atSeconds }) => atSeconds)) - middleSeconds);
    const windSigma = wind === null ? FORECAST_SIGMA_METRES_PER_SECOND : mean([...wind.windEastSigmaMetresPerSecond, ...wind.windNorthSigmaMetresPerSecond]);
    const sigmaMetres = LEAST_PLACE_SIGMA_METRES + windSigma * apartSeconds;
    return { letterIndex, sigmaMetres, ...frameOffset(samples, sigmaMetres) };
  });
}

function mean(values: readonly number[]): number {
  return values.length === 0 ? 0 : values.reduce((sum, value) => sum + value, 0) / values.length;
}
