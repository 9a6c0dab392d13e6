import type { FlightSetup, FlightStroke } from '../guidance/flight-setup.ts';
import { airPathLengthMetres } from '../paths/air-path.ts';
import { projectOnPath } from '../paths/project-on-path.ts';
import { signedRadians } from '../units/angle.ts';
import { airMomentAt, type AirTrack } from './air-track.ts';
import type { FrameOffset } from './frame-offset.ts';
import type { SmokeInterval } from './smoke-intervals.ts';
import type { StrokeSample } from './stroke-sample.ts';

/** A stroke as it was flown: every moment under smoke since it was last begun anew. */
export interface FlownStroke {
  readonly strokeIndex: number;
  readonly intervals: readonly SmokeInterval[];
  readonly samples: readonly StrokeSample[];
  /** How often it was flown once more from its start. */
  readonly redoneCount: number;
}

/** How well a stroke was flown. Null where there was no smoke to judge. */
export interface StrokeScore {
  readonly strokeIndex: number;
  readonly letterIndex: number;
  readonly character: string;
  /** Root mean square, mean (right positive) and greatest distance from the stroke's line. */
  readonly crossTrackRmsMetres: number | null;
  readonly crossTrackMeanMetres: number | null;
  readonly crossTrackWorstMetres: number | null;
  readonly headingErrorRmsRadians: number | null;
  /** The smoke's beginning and end against the stroke's, in seconds of flying: late and too long positive. */
  readonly onErrorSeconds: number | null;
  readonly offErrorSeconds: number | null;
  /** Against the plan's time since the datum, late positive. */
  readonly lateSeconds: number | null;
  /** Share of the stroke that carries smoke, 0 to 1. */
  readonly coverage: number;
  readonly redoneCount: number;
}

const SAMPLE_SECONDS = 0.25;
/** Smoke that begins within this of the stroke's start begins it anew. */
const ANEW_METRES = 150;

/** The strokes' samples, each in the air-mass frame moved by an offset of its own. */
export function flownStrokes(
  strokes: readonly FlightStroke[],
  intervals: readonly SmokeInterval[],
  track: AirTrack,
  offsetOf: (stroke: FlightStroke) => FrameOffset,
): FlownStroke[] {
  return strokes.map((stroke, strokeIndex) => {
    const offset = offsetOf(stroke);
    let kept: { interval: SmokeInterval; samples: StrokeSample[] }[] = [];
    let redoneCount = 0;
    for (const interval of intervals.filter((each) => each.strokeIndex === strokeIndex)) {
      const samples = samplesOf(stroke, interval, track, offset);
      const first = samples[0];
      if (first === undefined) continue;
      const before = kept.at(-1)?.samples.at(-1);
      // Begun again at the start after having come a good way: the earlier smoke is not what is judged.
      if (before !== undefined && first.alongMetres < ANEW_METRES && before.alongMetres > first.alongMetres + ANEW_METRES) {
        kept = [];
        redoneCount += 1;
      }
      kept.push({ interval, samples });
    }
    return { strokeIndex, intervals: kept.map(({ interval }) => interval), samples: kept.flatMap(({ samples }) => samples), redoneCount };
  });
}

function samplesOf(stroke: FlightStroke, interval: SmokeInterval, track: AirTrack, offset: FrameOffset): StrokeSample[] {
  const samples: StrokeSample[] = [];
  const count = Math.max(1, Math.ceil((interval.offSeconds - interval.onSeconds) / SAMPLE_SECONDS));
  let nearMetres: number | null = null;
  for (let step = 0; step <= count; step += 1) {
    const atSeconds = interval.onSeconds + ((interval.offSeconds - interval.onSeconds) * step) / count;
    const moment = airMomentAt(track, atSeconds);
    if (moment === null) continue;
    const point = { airEastMetres: moment.airEastMetres - offset.eastMetres, airNorthMetres: moment.airNorthMetres - offset.northMetres };
    nearMetres ??= nearestAlongMetres(stroke, point, moment.directionRadians);
    const projection = projectOnPath(stroke.path, point, nearMetres);
    nearMetres = projection.alongMetres;
    samples.push({
      atSeconds,
      ...point,
      alongMetres: projection.alongMetres,
      crossTrackMetres: projection.crossTrackMetres,
      pathDirectionRadians: projection.pose.directionRadians,
      headingErrorRadians: signedRadians(moment.directionRadians - projection.pose.directionRadians),
    });
  }
  return samples;
}

/** Where on the path smoke began: the nearest place that runs the same way, looked for every 25 m. */
function nearestAlongMetres(
  stroke: FlightStroke,
  point: { readonly airEastMetres: number; readonly airNorthMetres: number },
  directionRadians: number,
): number {
  const lengthMetres = airPathLengthMetres(stroke.path);
  const steps = Math.max(1, Math.ceil(lengthMetres / 25));
  let nearest = 0;
  let least = Infinity;
  for (let step = 0; step <= steps; step += 1) {
    const alongMetres = (lengthMetres * step) / steps;
    const { pose } = projectOnPath(stroke.path, point, alongMetres);
    const apart = Math.hypot(pose.airEastMetres - point.airEastMetres, pose.airNorthMetres - point.airNorthMetres);
    const cost = apart + 400 * Math.abs(signedRadians(directionRadians - pose.directionRadians)) + 0.05 * alongMetres;
    if (cost < least) {
      least = cost;
      nearest = alongMetres;
    }
  }
  return nearest;
}

/** The score of each stroke. `datumSeconds` null leaves `lateSeconds` out. */
export function strokeScores(setup: FlightSetup, flown: readonly FlownStroke[], datumSeconds: number | null): StrokeScore[] {
  return flown.map(({ strokeIndex, samples, intervals, redoneCount }) => {
    const stroke = setup.strokes[strokeIndex]!;
    const lengthMetres = airPathLengthMetres(stroke.path);
    const speed = setup.trueAirspeedMetresPerSecond;
    const inside = samples.filter(({ alongMetres }) => alongMetres >= 0 && alongMetres <= lengthMetres);
    const judged = inside.length > 1 ? inside : null;
    const first = samples[0];
    const last = samples.at(-1);
    const meanOf = (value: (sample: StrokeSample) => number): number | null =>
      judged === null ? null : judged.reduce((sum, sample) => sum + value(sample), 0) / judged.length;
    const rootOf = (square: number | null): number | null => (square === null ? null : Math.sqrt(square));
    return {
      strokeIndex,
      letterIndex: stroke.letterIndex,
      character: stroke.character,
      crossTrackRmsMetres: rootOf(meanOf(({ crossTrackMetres }) => crossTrackMetres ** 2)),
      crossTrackMeanMetres: meanOf(({ crossTrackMetres }) => crossTrackMetres),
      crossTrackWorstMetres: judged === null ? null : judged.reduce((worst, { crossTrackMetres }) => Math.max(worst, Math.abs(crossTrackMetres)), 0),
      headingErrorRmsRadians: rootOf(meanOf(({ headingErrorRadians }) => headingErrorRadians ** 2)),
      onErrorSeconds: first === undefined ? null : first.alongMetres / speed,
      offErrorSeconds: last === undefined ? null : (last.alongMetres - lengthMetres) / speed,
      lateSeconds: first === undefined || datumSeconds === null ? null : first.atSeconds - datumSeconds - stroke.plannedStartSeconds,
      coverage: coverageOf(samples, intervals.length, lengthMetres),
      redoneCount,
    };
  });
}

/** Share of the stroke within a sample's length of some smoke. */
function coverageOf(samples: readonly StrokeSample[], intervalCount: number, lengthMetres: number): number {
  if (intervalCount === 0 || samples.length === 0) return 0;
  const cells = new Uint8Array(100);
  samples.forEach((sample, index) => {
    const before = samples[index - 1] ?? sample;
    // Neighbours in time are one line; a break between two intervals is not smoke.
    const joined = sample.atSeconds - before.atSeconds <= 1.5 * SAMPLE_SECONDS;
    const fromMetres = joined ? Math.min(before.alongMetres, sample.alongMetres) : sample.alongMetres;
    const toMetres = Math.max(joined ? before.alongMetres : sample.alongMetres, sample.alongMetres);
    for (let cell = 0; cell < cells.length; cell += 1) {
      const middle = ((cell + 0.5) / cells.length) * lengthMetres;
      if (middle >= fromMetres && middle <= toMetres) cells[cell] = 1;
    }
  });
  return cells.reduce((sum, cell) => sum + cell, 0) / cells.length;
}
