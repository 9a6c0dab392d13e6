import { airPathEnd, airPathLengthMetres, type AirPath, type AirPose, reversedAirPath } from '../paths/air-path.ts';
import { curvatureAt } from '../paths/project-on-path.ts';
import { repositionBetween } from '../paths/reposition.ts';
import { type ShipLimits, type ShipModel, shipModel } from '../paths/ship-model.ts';
import { closedStartsMetres, startedAt } from '../paths/stroke-path.ts';

/** A stroke that is still to be flown. */
export interface RestStroke {
  readonly strokeIndex: number;
  readonly letterIndex: number;
  readonly path: AirPath;
  /** Broken off: it is taken up there, and flown as it was begun. */
  readonly from: { readonly pose: AirPose; readonly alongMetres: number } | null;
}

/** How letters are to be finished; those with a stroke flown once already are bound by none of it. */
export type RestRule = 'letter-by-letter' | 'finished-in-turn' | 'any';

/** What is left of a flight: plain data, since it is sent to a worker. */
export interface RestProblem {
  readonly pose: AirPose;
  /** In the order in which they would be flown. */
  readonly strokes: readonly RestStroke[];
  readonly limits: ShipLimits;
  readonly rule: RestRule;
  /** Strokes keep their directions. */
  readonly directionsKept: boolean;
  /** Letters that were finished once, or begun, but for the one that is being written. */
  readonly lettersBegun: readonly number[];
}

export interface RestOrder {
  /** In flying order; seconds from the beginning of each to the end of all. */
  readonly strokes: readonly { readonly strokeIndex: number; readonly path: AirPath; readonly restSeconds: number }[];
  /** Against the order that was given. */
  readonly savedSeconds: number;
}

/** Tables grow by two with each stroke: 12 take some tens of milliseconds. */
const MOST_STROKES = 12;
const CLOSED_STARTS = 6;
const CLOSED_METRES = 1;
/** Less than this is lost in how ways are flown: at the desk 12 changes that promised 3 to 8 s cost 9 s each. */
const LEAST_SAVED_SECONDS = 8;

interface Way {
  readonly stroke: number;
  readonly path: AirPath;
  readonly start: AirPose;
  readonly end: AirPose;
  readonly seconds: number;
}

/**
 * The quickest order and directions of all strokes that are left, from where the ship is: exact, by dynamic programming over
 * sets of strokes (Held and Karp 1962), closed ones from six starts. Null for more than 12 strokes, and where it saves under 8 s.
 */
export function orderOfRest(problem: RestProblem): RestOrder | null {
  const { strokes, pose, rule } = problem;
  const count = strokes.length;
  if (count === 0 || count > MOST_STROKES) return null;
  const model = shipModel(problem.limits);
  const ways = strokes.flatMap((stroke, index) => waysOf(stroke, index, problem, model));
  const between = ways.map((from) => ways.map((to) => (from.stroke === to.stroke ? Infinity : wayBetween(from, to, model))));
  const first = ways.map(({ start }) => repositionBetween(pose, start, model, 0).seconds);
  const allows = ruleOf(strokes, rule, problem.lettersBegun);
  const sets = 1 << count;
  // least[set * ways + way]: the quickest end of what is left once the strokes of a set are flown, the last of them by that way.
  const least = new Float64Array(sets * ways.length).fill(Infinity);
  const following = new Int16Array(sets * ways.length).fill(-1);
  least.fill(0, (sets - 1) * ways.length);
  for (let set = sets - 2; set >= 0; set -= 1) {
    const nexts = ways.flatMap(({ stroke }, way) => (((set >> stroke) & 1) === 0 && allows(set, stroke) ? [way] : []));
    ways.forEach(({ stroke }, way) => {
      if (set > 0 && ((set >> stroke) & 1) === 0) return;
      for (const next of nexts) {
        const to = ways[next]!;
        const seconds = (set === 0 ? first[next]! : between[way]![next]!) + to.seconds + least[(set | (1 << to.stroke)) * ways.length + next]!;
        if (seconds >= least[set * ways.length + way]!) continue;
        least[set * ways.length + way] = seconds;
        following[set * ways.length + way] = next;
      }
    });
  }
  const savedSeconds = asGiven(ways, between, first) - least[0]!;
  if (!(savedSeconds >= LEAST_SAVED_SECONDS)) return null;
  const ordered: { strokeIndex: number; path: AirPath; restSeconds: number }[] = [];
  let set = 0;
  let way = 0;
  while (set < sets - 1) {
    way = following[set * ways.length + way]!;
    const { stroke, path, seconds } = ways[way]!;
    set |= 1 << stroke;
    ordered.push({ strokeIndex: strokes[stroke]!.strokeIndex, path, restSeconds: seconds + least[set * ways.length + way]! });
  }
  return { strokes: ordered, savedSeconds };
}

/** The given way comes first of each stroke's. */
function waysOf({ path, from }: RestStroke, stroke: number, { directionsKept }: RestProblem, model: ShipModel): Way[] {
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

function wayBetween(from: Way, to: Way, model: ShipModel): number {
  const curved = (path: AirPath, alongMetres: number): number => (curvatureAt(path, alongMetres) === 0 ? 0 : 1);
  return repositionBetween(from.end, to.start, model, curved(from.path, airPathLengthMetres(from.path)) + curved(to.path, 0)).seconds;
}

/** The order that was given, each stroke as it was given. */
function asGiven(ways: readonly Way[], between: readonly (readonly number[])[], first: readonly number[]): number {
  const given = ways.flatMap((way, index) => (ways[index - 1]?.stroke === way.stroke ? [] : [index]));
  return given.reduce((sum, way, place) => sum + (place === 0 ? first[way]! : between[given[place - 1]!]![way]!) + ways[way]!.seconds, 0);
}

/** Whether a stroke may follow a set of strokes. */
function ruleOf(strokes: readonly RestStroke[], rule: RestRule, lettersBegun: readonly number[]): (set: number, stroke: number) => boolean {
  if (rule === 'any') return () => true;
  const bound = strokes.map(({ letterIndex }) => !lettersBegun.includes(letterIndex));
  const setOf = (letterIndex: number): number => strokes.reduce((set, one, index) => (one.letterIndex === letterIndex ? set | (1 << index) : set), 0);
  // Letters are finished in the order in which their last strokes were to be flown.
  const turns = strokes.map(({ letterIndex }) => strokes.findLastIndex((one) => one.letterIndex === letterIndex));
  const before = strokes.map((_, index) =>
    strokes.reduce((set, _one, other) => (bound[other]! && turns[other]! < turns[index]! ? set | (1 << other) : set), 0),
  );
  const own = strokes.map(({ letterIndex }) => setOf(letterIndex));
  return (set, stroke) => {
    if (!bound[stroke]!) return true;
    const finishes = ((set | (1 << stroke)) & own[stroke]!) === own[stroke]!;
    return (rule === 'finished-in-turn' && !finishes) || (set & before[stroke]!) === before[stroke]!;
  };
}
