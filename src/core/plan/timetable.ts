import type { AirPose } from '../paths/air-path.ts';
import { repositionBetween } from '../paths/reposition.ts';
import type { ShipModel } from '../paths/ship-model.ts';
import { avoidsPlace, pairClearance, type PairClearance, samplingSlackMetres } from './keep-clear.ts';
import { circleKeptClearMetres } from './circle-kept-clear.ts';
import type { ArrangedShip } from './formation.ts';
import type { LatenessWindow, RepositionLeg, TimetableEntry } from './plan.ts';
import { shipMotion } from './ship-motion.ts';

/**
 * A ship is on time while it is early or late by no more than these shares of the slip that the plan allows two ships
 * against each other; the last share is for clocks started by hand on one radio call. Of 10 s: 3 early to 5 late, and 2.
 */
const EARLY_SHARE = 0.3;
const LATE_SHARE = 0.5;
const HANDS_SHARE = 0.2;
const TRIED_EVERY_SECONDS = 3;
/** A later window begins so much after the one before it at least, so that a few of them reach far. */
const NEXT_SHARE = 1.6;
const NEXT_SECONDS = 12;
const MOST_WINDOWS = 8;
const STEP_SECONDS = 1;

interface Path {
  readonly strokeIndex: number;
  readonly leg: RepositionLeg;
  readonly windows: LatenessWindow[];
}

/**
 * Every ship's ways from its circle into its strokes, each with the windows of lateness that are safe. Windows are given
 * out one after another, and each is held against all that were given to the other ships before, so that any ships may
 * be late at once, each inside a window of its own, and stay apart. The first window of a ship's first way is the plan.
 *
 * @param separationMetres what must lie between two ships, place keeping included
 * @param slipSeconds how far the plan lets two ships slip against each other
 */
export function timetables(ships: readonly ArrangedShip[], model: ShipModel, separationMetres: number, slipSeconds: number): TimetableEntry[][] {
  const limitMetres = separationMetres + samplingSlackMetres(STEP_SECONDS, model.trueAirspeedMetresPerSecond);
  const onTime: LatenessWindow = { fromSeconds: -EARLY_SHARE * slipSeconds, toSeconds: LATE_SHARE * slipSeconds };
  const windowSeconds = onTime.toSeconds - onTime.fromSeconds;
  const handsSeconds = HANDS_SHARE * slipSeconds;
  const paths = ships.map((ship, index) => pathsInto(ship, model, ships, index, limitMetres));
  const clearances = clearancesBetween(ships, paths, limitMetres);
  const latestSeconds = 2 * ships.length * Math.max(...ships.map(({ departure }) => departure.endSeconds));
  const safe = (ship: number, entry: number, window: LatenessWindow): boolean =>
    paths.every(
      (others, other) =>
        other === ship ||
        others.every(({ windows }, index) => {
          const clearance = ship < other ? clearances[ship]![other]![entry]![index]! : clearances[other]![ship]![index]![entry]!;
          return windows.every((given) => {
            const low = given.fromSeconds - window.toSeconds - handsSeconds;
            const high = given.toSeconds - window.fromSeconds + handsSeconds;
            return ship < other ? clearance.clearBetween(low, high) : clearance.clearBetween(-high, -low);
          });
        }),
    );
  for (const own of paths) own[0]?.windows.push(onTime);
  for (let round = 0; round < MOST_WINDOWS; round += 1) {
    const longest = Math.max(...paths.map((own) => own.length));
    for (let entry = 0; entry < longest; entry += 1) {
      paths.forEach((own, ship) => {
        const path = own[entry];
        if (path === undefined || path.windows.length > round + (entry === 0 ? 1 : 0)) return;
        const last = path.windows.at(-1);
        const from = last === undefined ? 0 : Math.max(last.fromSeconds + NEXT_SECONDS, NEXT_SHARE * last.fromSeconds);
        for (let fromSeconds = from; fromSeconds <= latestSeconds; fromSeconds += TRIED_EVERY_SECONDS) {
          const window = { fromSeconds, toSeconds: fromSeconds + windowSeconds };
          if (!safe(ship, entry, window)) continue;
          path.windows.push(window);
          return;
        }
      });
    }
  }
  return paths;
}

/** A ship's ways from its circle to each of its strokes, without those that pass another's circle. */
function pathsInto({ joinUp, legs }: ArrangedShip, model: ShipModel, ships: readonly ArrangedShip[], own: number, limitMetres: number): Path[] {
  const leave: AirPose = joinUp.leg.path.start;
  const strokes = legs.filter((leg) => leg.kind === 'smoke');
  return strokes.flatMap(({ strokeIndex, path, startSeconds }): Path[] => {
    if (strokeIndex === 0) return [{ strokeIndex, leg: joinUp.leg, windows: [] }];
    const way = repositionBetween(leave, path.start, model, 0);
    const leg: RepositionLeg = { kind: 'reposition', path: way.path, startSeconds: startSeconds - way.seconds, endSeconds: startSeconds };
    const motion = shipMotion([leg], STEP_SECONDS);
    const clear = ships.every(
      (other, index) => index === own || avoidsPlace(motion, other.joinUp.holdCentre, circleKeptClearMetres(other.joinUp, limitMetres)),
    );
    return clear ? [{ strokeIndex, leg, windows: [] }] : [];
  });
}

/** For each pair of ships, for each way of the first and each of the second. */
function clearancesBetween(ships: readonly ArrangedShip[], paths: readonly (readonly Path[])[], limitMetres: number): PairClearance[][][][] {
  const motions = ships.map(({ legs, departure }, ship) =>
    paths[ship]!.map(({ leg, strokeIndex }) => {
      const from = legs.findIndex((one) => one.kind === 'smoke' && one.strokeIndex === strokeIndex);
      return shipMotion([leg, ...legs.slice(from), departure], STEP_SECONDS);
    }),
  );
  return motions.map((firsts, one) =>
    motions.map((seconds, other) => (other > one ? firsts.map((first) => seconds.map((second) => pairClearance(first, second, limitMetres, 0))) : [])),
  );
}
