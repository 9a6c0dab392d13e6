import { airPathEnd, airPathLengthMetres, type AirPath, type AirPose, reversedAirPath } from '../paths/air-path.ts';
import { curvatureAt } from '../paths/project-on-path.ts';
import { repositionBetween } from '../paths/reposition.ts';
import { type ShipModel, shipModel } from '../paths/ship-model.ts';
import { closedStartsMetres, startedAt } from '../paths/stroke-path.ts';
import type { RestOrder, RestProblem, RestStroke } from './rest-of-flight.ts';

/** One of the ways to fly a stroke: forth or back, a closed one from any of its starts. */
export interface RestWay {
  /** Index into the problem's strokes. */
  readonly stroke: number;
  readonly path: AirPath;
  readonly start: AirPose;
  readonly end: AirPose;
  readonly seconds: number;
}

/** All ways to fly what is left, and how long it takes to come to them. */
export interface RestWays {
  readonly ways: readonly RestWay[];
  /** Seconds from the end of one way to the start of another; infinite within one stroke. */
  readonly between: readonly (readonly number[])[];
  /** Seconds from where the ship is to the start of each. */
  readonly first: readonly number[];
  /** The order that stands, to the end of all. */
  readonly givenSeconds: number;
  /** An order of ways, one a stroke, as what comes of it. */
  orderOf(chosen: readonly number[]): RestOrder;
}

const CLOSED_STARTS = 6;
const CLOSED_METRES = 1;

/** The ways of a problem; a stroke's first is the given one. */
export function restWays(problem: RestProblem): RestWays {
  const { strokes, pose } = problem;
  const model = shipModel(problem.limits);
  const ways = strokes.flatMap((stroke, index) => waysOf(stroke, index, problem, model));
  const between = ways.map((from) => ways.map((to) => (from.stroke === to.stroke ? Infinity : wayBetween(from, to, model))));
  const first = ways.map(({ start }) => repositionBetween(pose, start, model, 0).seconds);
  const restSecondsOf = (chosen: readonly number[], place: number): number =>
    chosen.slice(place).reduce((sum, way, after) => sum + ways[way]!.seconds + (after === 0 ? 0 : between[chosen[place + after - 1]!]![way]!), 0);
  const secondsOf = (chosen: readonly number[]): number => first[chosen[0]!]! + restSecondsOf(chosen, 0);
  const givenSeconds = secondsOf(ways.flatMap((way, index) => (ways[index - 1]?.stroke === way.stroke ? [] : [index])));
  return {
    ways,
    between,
    first,
    givenSeconds,
    orderOf: (chosen) => ({
      strokes: chosen.map((way, place) => ({
        strokeIndex: strokes[ways[way]!.stroke]!.strokeIndex,
        path: ways[way]!.path,
        restSeconds: restSecondsOf(chosen, place),
      })),
      savedSeconds: givenSeconds - secondsOf(chosen),
    }),
  };
}

function waysOf({ path, from }: RestStroke, stroke: number, { directionsKept }: RestProblem, model: ShipModel): RestWay[] {
  const speed = model.trueAirspeedMetresPerSecond;
  const lengthMetres = airPathLengthMetres(path);
  const end = airPathEnd(path);
  if (from !== null) return [{ stroke, path, start: from.pose, end, seconds: (lengthMetres - from.alongMetres) / speed }];
  const closed =
    Math.hypot(end.airEastMetres - path.start.airEastMetres, end.airNorthMetres - path.start.airNorthMetres) < CLOSED_METRES &&
    Math.cos(end.directionRadians - path.start.directionRadians) > 1 - 1e-6;
  const paths = [
    path,
    ...(closed
      ? closedStartsMetres(path, CLOSED_STARTS)
          .slice(1)
          .map((along) => startedAt(path, along))
      : []),
  ];
  return [...paths, ...(directionsKept ? [] : paths.map(reversedAirPath))].map((one) => ({
    stroke,
    path: one,
    start: one.start,
    end: airPathEnd(one),
    seconds: lengthMetres / speed,
  }));
}

function wayBetween(from: RestWay, to: RestWay, model: ShipModel): number {
  const curved = (path: AirPath, alongMetres: number): number => (curvatureAt(path, alongMetres) === 0 ? 0 : 1);
  return repositionBetween(from.end, to.start, model, curved(from.path, airPathLengthMetres(from.path)) + curved(to.path, 0)).seconds;
}
