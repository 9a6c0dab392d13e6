import { type AirPath, airPathLengthMetres, airPoseAt } from '../../src/core/paths/air-path.ts';
import type { Puff } from './simulated-flight.ts';

/** How the smoke that was laid differs from the strokes that were planned. */
export interface SmokeErrors {
  readonly crossTrackRmsMetres: number;
  readonly worstCrossTrackMetres: number;
  /** Seconds early (negative) or late at the ends, one for each stroke. */
  readonly onErrorsSeconds: readonly number[];
  readonly offErrorsSeconds: readonly number[];
  readonly matchedStrokes: number;
}

interface Spot {
  readonly east: number;
  readonly north: number;
}

const SAMPLE_METRES = 5;

/**
 * Compares trails with planned strokes after the one shift that a reader cannot see: that of the whole word. Each
 * stroke is matched with the trail nearest to it; a trail of a stroke broken off and taken up again counts with the
 * part it covers.
 */
export function measureSmoke(trails: readonly (readonly Puff[])[], strokes: readonly AirPath[], airspeedMetresPerSecond: number): SmokeErrors {
  const lines = trails
    .filter((trail) => trail.length > 10)
    .map((trail) => trail.map(({ airEastMetres, airNorthMetres }): Spot => ({ east: airEastMetres, north: airNorthMetres })));
  const paths = strokes.map(sampled);
  let shift = between(paths[0]![0]!, lines[0]![0]!);
  let pairs: { readonly path: readonly Spot[]; readonly line: readonly Spot[] }[] = [];
  for (let round = 0; round < 6; round += 1) {
    const current = shift;
    pairs = lines.map((line) => ({
      line,
      path: nearestPath(
        line.map((spot) => moved(spot, current)),
        paths,
      ),
    }));
    const residuals = pairs.flatMap(({ line, path }) => [between(path[0]!, moved(line[0]!, current)), between(path.at(-1)!, moved(line.at(-1)!, current))]);
    const middle = median(residuals);
    shift = { east: current.east + middle.east, north: current.north + middle.north };
  }
  const crossTracks = pairs.flatMap(({ line, path }) => line.map((spot) => distanceToLine(moved(spot, shift), path)));
  return {
    crossTrackRmsMetres: Math.sqrt(crossTracks.reduce((sum, metres) => sum + metres * metres, 0) / crossTracks.length),
    worstCrossTrackMetres: Math.max(...crossTracks),
    onErrorsSeconds: pairs.map(({ line, path }) => alongFrom(path[0]!, path[1]!, moved(line[0]!, shift)) / airspeedMetresPerSecond),
    offErrorsSeconds: pairs.map(({ line, path }) => -alongFrom(path.at(-1)!, path.at(-2)!, moved(line.at(-1)!, shift)) / airspeedMetresPerSecond),
    matchedStrokes: new Set(pairs.map(({ path }) => path)).size,
  };
}

function sampled(path: AirPath): Spot[] {
  const lengthMetres = airPathLengthMetres(path);
  const count = Math.ceil(lengthMetres / SAMPLE_METRES);
  return Array.from({ length: count + 1 }, (_, index) => {
    const pose = airPoseAt(path, (lengthMetres * index) / count);
    return { east: pose.airEastMetres, north: pose.airNorthMetres };
  });
}

const between = (to: Spot, from: Spot): Spot => ({ east: to.east - from.east, north: to.north - from.north });
const moved = (spot: Spot, by: Spot): Spot => ({ east: spot.east + by.east, north: spot.north + by.north });

function median(spots: readonly Spot[]): Spot {
  const middle = (values: number[]): number => values.sort((one, other) => one - other)[Math.floor(values.length / 2)]!;
  return { east: middle(spots.map(({ east }) => east)), north: middle(spots.map(({ north }) => north)) };
}

function nearestPath(line: readonly Spot[], paths: readonly (readonly Spot[])[]): readonly Spot[] {
  const places = [0, 0.25, 0.5, 0.75, 1].map((share) => line[Math.round(share * (line.length - 1))]!);
  let best = paths[0]!;
  let bestSum = Infinity;
  for (const path of paths) {
    const ends = Math.hypot(path[0]!.east - line[0]!.east, path[0]!.north - line[0]!.north);
    const sum = places.reduce((total, spot) => total + distanceToLine(spot, path), 0.1 * ends);
    if (sum < bestSum) {
      bestSum = sum;
      best = path;
    }
  }
  return best;
}

function distanceToLine(spot: Spot, path: readonly Spot[]): number {
  let best = Infinity;
  for (let index = 1; index < path.length; index += 1) {
    const from = path[index - 1]!;
    const to = path[index]!;
    const east = to.east - from.east;
    const north = to.north - from.north;
    const share = Math.max(0, Math.min(1, ((spot.east - from.east) * east + (spot.north - from.north) * north) / (east * east + north * north)));
    best = Math.min(best, Math.hypot(spot.east - from.east - share * east, spot.north - from.north - share * north));
  }
  return best;
}

/** How far a spot lies from a line's end towards its next point. */
function alongFrom(end: Spot, next: Spot, spot: Spot): number {
  const length = Math.hypot(next.east - end.east, next.north - end.north);
  return ((spot.east - end.east) * (next.east - end.east) + (spot.north - end.north) * (next.north - end.north)) / length;
}
