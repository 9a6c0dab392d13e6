import { type AirPoint, type AirPose } from '../../paths/air-path.ts';
import type { OtherShip } from './formation-setup.ts';
import { pathPoints } from '../ways/path-points.ts';
import { solveWay, type Way, type WayLimits } from '../ways/solve-way.ts';

const LOOK_EVERY_METRES = 80;
/** So much farther out than must be, to come past a circle. */
const ASIDE_METRES = 120;

/** The first circle of another ship that a way enters, unless it begins inside. */
function enteredBy(way: Way, from: AirPoint, others: readonly OtherShip[]): OtherShip | null {
  const apart = (other: OtherShip, point: AirPoint): number =>
    Math.hypot(point.airEastMetres - other.holdCentre.airEastMetres, point.airNorthMetres - other.holdCentre.airNorthMetres);
  const outside = others.filter((other) => apart(other, from) > other.keptClearMetres);
  if (outside.length === 0) return null;
  for (const point of pathPoints(way.path, LOOK_EVERY_METRES)) {
    const entered = outside.find((other) => apart(other, point) < other.keptClearMetres);
    if (entered !== undefined) return entered;
  }
  return null;
}

/**
 * A way to where the ship's own circle is left, round the circles of the others: past one that lies in between on the
 * side that is shorter. A way that begins inside another's circle leaves it as it comes; height keeps them apart.
 */
export function wayToCircle(
  pose: AirPose,
  goal: AirPose,
  others: readonly OtherShip[],
  limits: Omit<WayLimits, 'earliestSeconds' | 'runInSeconds'>,
  previous: Way | null,
): Way {
  const ways = { ...limits, runInSeconds: 0, earliestSeconds: 0 };
  const plain = solveWay(pose, goal, ways, previous);
  const inTheWay = enteredBy(plain, pose, others);
  if (inTheWay === null) return plain;
  const { holdCentre, keptClearMetres } = inTheWay;
  const direction = Math.atan2(goal.airNorthMetres - pose.airNorthMetres, goal.airEastMetres - pose.airEastMetres);
  let best: Way | null = null;
  let bestCost = Infinity;
  for (const side of [1, -1]) {
    const outMetres = side * (keptClearMetres + ASIDE_METRES);
    const past: AirPose = {
      airEastMetres: holdCentre.airEastMetres - outMetres * Math.sin(direction),
      airNorthMetres: holdCentre.airNorthMetres + outMetres * Math.cos(direction),
      directionRadians: direction,
    };
    const first = solveWay(pose, past, ways, null);
    const second = solveWay(past, goal, ways, null);
    const way: Way = { ...first, path: { start: pose, segments: [...first.path.segments, ...second.path.segments] }, seconds: first.seconds + second.seconds };
    const cost = way.seconds + (enteredBy(way, pose, others) === null ? 0 : 60);
    if (cost < bestCost) {
      best = way;
      bestCost = cost;
    }
  }
  return best ?? plain;
}
