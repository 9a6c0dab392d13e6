import { type WindVector } from '../earth/wind-vector.ts';
import { airPathLengthMetres } from '../paths/air-path.ts';
import { type AirTrack, indexAt, windAt } from './air-track.ts';
import type { CueChange } from './replay.ts';
import type { ShipLog } from './ship-log.ts';
import type { SmokeInterval } from './smoke-intervals.ts';
import type { StrokeScore } from './stroke-score.ts';
import { NODE_SECONDS, type WindHistory } from './wind-history.ts';

/** A flight in figures, planned beside flown. Null where there was no smoke. */
export interface FlightScore {
  readonly windForecast: WindVector;
  /** Mean while writing, from the whole track; null when the track does not tell. */
  readonly windFound: WindVector | null;
  /** One standard deviation of each component of the wind found. */
  readonly windSigmaMetresPerSecond: number | null;
  readonly airspeedPlannedMetresPerSecond: number;
  readonly airspeedFlownMetresPerSecond: number | null;
  readonly oilPlannedKilograms: number;
  readonly oilUsedKilograms: number;
  /** From first smoke to last. */
  readonly durationPlannedSeconds: number;
  readonly durationFlownSeconds: number | null;
  /** Through the air, from first smoke to last. */
  readonly distancePlannedMetres: number;
  readonly distanceFlownMetres: number | null;
  readonly firstSmokeSeconds: number | null;
  readonly lastSmokeSeconds: number | null;
  readonly strokesFlown: number;
  readonly strokesSkipped: number;
  readonly strokesRedone: number;
  readonly goArounds: number;
  /** While writing, without a position. */
  readonly blindSeconds: number;
}

/** Positions farther apart than this leave a gap that counts as blind. */
const BLIND_SECONDS = 3;

/** The flight's figures. */
export function flightScore(
  log: ShipLog,
  changes: readonly CueChange[],
  intervals: readonly SmokeInterval[],
  scores: readonly StrokeScore[],
  air: AirTrack | null,
  skippedCount: number,
): FlightScore {
  const { setup, wind, track } = log;
  const firstSmokeSeconds = intervals.length === 0 ? null : intervals.reduce((least, { onSeconds }) => Math.min(least, onSeconds), Infinity);
  const lastSmokeSeconds = intervals.length === 0 ? null : intervals.reduce((most, { offSeconds }) => Math.max(most, offSeconds), -Infinity);
  const writing = firstSmokeSeconds === null || lastSmokeSeconds === null ? null : { from: firstSmokeSeconds, to: lastSmokeSeconds };
  const smokeSeconds = setup.strokes.reduce((sum, { path }) => sum + airPathLengthMetres(path), 0) / setup.trueAirspeedMetresPerSecond;
  const lastStroke = setup.strokes.at(-1);
  const durationPlannedSeconds =
    lastStroke === undefined
      ? 0
      : lastStroke.plannedStartSeconds +
        airPathLengthMetres(lastStroke.path) / setup.trueAirspeedMetresPerSecond -
        (setup.strokes[0]?.plannedStartSeconds ?? 0);
  const mean = writing === null || wind === null ? null : meanWind(wind, writing.from, writing.to);
  return {
    windForecast: setup.forecastWind,
    windFound: mean?.wind ?? null,
    windSigmaMetresPerSecond: mean?.sigmaMetresPerSecond ?? null,
    airspeedPlannedMetresPerSecond: setup.trueAirspeedMetresPerSecond,
    airspeedFlownMetresPerSecond: mean?.airspeedMetresPerSecond ?? null,
    oilPlannedKilograms: smokeSeconds * setup.oilKilogramsPerSecond,
    oilUsedKilograms: intervals.reduce((sum, { onSeconds, offSeconds }) => sum + offSeconds - onSeconds, 0) * setup.oilKilogramsPerSecond,
    durationPlannedSeconds,
    durationFlownSeconds: writing === null ? null : writing.to - writing.from,
    distancePlannedMetres: durationPlannedSeconds * setup.trueAirspeedMetresPerSecond,
    distanceFlownMetres: writing === null || air === null ? null : distanceMetres(air, writing.from, writing.to),
    firstSmokeSeconds,
    lastSmokeSeconds,
    strokesFlown: scores.filter(({ coverage }) => coverage > 0.5).length,
    strokesSkipped: skippedCount,
    strokesRedone: scores.reduce((sum, { redoneCount }) => sum + redoneCount, 0),
    goArounds: changes.filter((change, index, all) => change.phase === 'go-around' && all[index - 1]?.phase !== 'go-around').length,
    blindSeconds: writing === null ? 0 : blindSeconds(track.atSeconds, writing.from, writing.to),
  };
}

function meanWind(
  wind: WindHistory,
  fromSeconds: number,
  toSeconds: number,
): { readonly wind: WindVector; readonly sigmaMetresPerSecond: number; readonly airspeedMetresPerSecond: number } {
  const from = windAt(wind, fromSeconds);
  const to = windAt(wind, toSeconds);
  const span = Math.max(1, toSeconds - fromSeconds);
  const nodes = [...wind.atSeconds.keys()].filter(
    (node) => wind.atSeconds[node]! >= fromSeconds - NODE_SECONDS && wind.atSeconds[node]! <= toSeconds + NODE_SECONDS,
  );
  const over = (values: Float64Array): number => nodes.reduce((sum, node) => sum + values[node]!, 0) / nodes.length;
  return {
    wind: {
      eastMetresPerSecond: (to.driftEastMetres - from.driftEastMetres) / span,
      northMetresPerSecond: (to.driftNorthMetres - from.driftNorthMetres) / span,
    },
    // The nodes' errors go together over most of a flight, so a mean of them is hardly better than one.
    sigmaMetresPerSecond: Math.sqrt((over(wind.windEastSigmaMetresPerSecond) ** 2 + over(wind.windNorthSigmaMetresPerSecond) ** 2) / 2),
    airspeedMetresPerSecond: over(wind.airspeedMetresPerSecond),
  };
}

function distanceMetres(air: AirTrack, fromSeconds: number, toSeconds: number): number {
  let sum = 0;
  const last = indexAt(air.atSeconds, toSeconds);
  for (let index = Math.max(1, indexAt(air.atSeconds, fromSeconds) + 1); index <= last; index += 1) {
    sum += Math.hypot(air.airEastMetres[index]! - air.airEastMetres[index - 1]!, air.airNorthMetres[index]! - air.airNorthMetres[index - 1]!);
  }
  return sum;
}

function blindSeconds(atSeconds: Float64Array, fromSeconds: number, toSeconds: number): number {
  let sum = 0;
  for (let index = 1; index < atSeconds.length; index += 1) {
    const from = Math.max(fromSeconds, atSeconds[index - 1]!);
    const to = Math.min(toSeconds, atSeconds[index]!);
    if (atSeconds[index]! - atSeconds[index - 1]! > BLIND_SECONDS && to > from) sum += to - from;
  }
  return sum;
}
