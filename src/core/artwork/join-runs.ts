import { biarc, distanceToArc, type FitArc, type FitPoint } from './biarc.ts';

/** Two runs of arcs made one, and how far that strays from what was drawn. */
export interface JoinedRuns {
  readonly arcs: readonly FitArc[];
  readonly strayMetres: number;
}

/** Of each run at least this share stays, so that both its ends may be shortened. */
const KEPT_SHARE = 0.55;
/** Each run is shortened in so many steps. */
const STEPS = 24;
/** A run is shortened by at most so many radii: what goes farther round is another drawing. */
const MOST_RADII = 2.5;
const SAMPLE_METRES = 15;

/**
 * Joins two runs by a pair of arcs no tighter than a radius, taking from each as little as will do; null where that
 * strays too far. Between them lies a corner, or what turned too tightly.
 *
 * Two lines of 2 km at a right angle and a radius of 300 m: each loses about 300 m, and the corner lies 124 m off.
 *
 * @param removed what was drawn between the runs, in order
 */
export function joinRuns(
  before: readonly FitArc[],
  removed: readonly FitArc[],
  after: readonly FitArc[],
  radiusMetres: number,
  mostStrayMetres: number,
): JoinedRuns | null {
  const lengthBefore = lengthOf(before);
  const lengthAfter = lengthOf(after);
  const most = Math.min(MOST_RADII * radiusMetres, (1 - KEPT_SHARE) * Math.min(lengthBefore, lengthAfter));
  for (let step = 1; step <= STEPS; step++) {
    const cutMetres = (most * step) / STEPS;
    const kept = cutAt(before, lengthBefore - cutMetres);
    const rest = cutAt(after, cutMetres);
    const pair = biarc(kept.at, rest.at);
    if (pair === null || pair.some(({ curvature }) => Math.abs(curvature) * radiusMetres > 1 + 1e-9)) continue;
    const drawn = [...kept.rest, ...removed, ...rest.first].flatMap(samples);
    const strayMetres = drawn.reduce((worst, { x, y }) => Math.max(worst, Math.min(distanceToArc(x, y, pair[0]), distanceToArc(x, y, pair[1]))), 0);
    // Arcs that go the long way round leave little undrawn, but draw what was not.
    const longest = 1.6 * (2 * cutMetres + lengthOf(removed)) + mostStrayMetres;
    if (strayMetres <= mostStrayMetres && pair[0].length + pair[1].length <= longest) {
      return { arcs: [...kept.first, ...pair.filter(({ length }) => length > 0), ...rest.rest], strayMetres };
    }
  }
  return null;
}

/** The length of arcs that follow each other. */
export function lengthOf(arcs: readonly FitArc[]): number {
  return arcs.reduce((sum, { length }) => sum + length, 0);
}

/** The pose a way along an arc. */
export function poseAlong(arc: FitArc, along: number): FitPoint {
  const turn = arc.curvature * along;
  const [cosine, sine] = [Math.cos(turn), Math.sin(turn)];
  const straight = Math.abs(turn) < 1e-9;
  const ahead = straight ? along : sine / arc.curvature;
  const aside = straight ? 0 : (1 - cosine) / arc.curvature;
  return {
    x: arc.startX + ahead * arc.directionX - aside * arc.directionY,
    y: arc.startY + ahead * arc.directionY + aside * arc.directionX,
    directionX: arc.directionX * cosine - arc.directionY * sine,
    directionY: arc.directionX * sine + arc.directionY * cosine,
  };
}

function cutAt(arcs: readonly FitArc[], along: number): { readonly first: FitArc[]; readonly rest: FitArc[]; readonly at: FitPoint } {
  const first: FitArc[] = [];
  const rest: FitArc[] = [];
  let at: FitPoint | null = null;
  let left = along;
  for (const arc of arcs) {
    if (at !== null) rest.push(arc);
    else if (arc.length < left) {
      first.push(arc);
      left -= arc.length;
    } else {
      at = poseAlong(arc, left);
      first.push({ ...arc, length: left });
      rest.push({ ...arc, startX: at.x, startY: at.y, directionX: at.directionX, directionY: at.directionY, length: arc.length - left });
    }
  }
  const last = arcs.at(-1);
  if (at === null && last !== undefined) at = poseAlong(last, last.length);
  if (at === null) throw new RangeError('no arcs to cut');
  return { first, rest, at };
}

function samples(arc: FitArc): FitPoint[] {
  const steps = Math.max(1, Math.ceil(arc.length / SAMPLE_METRES));
  return Array.from({ length: steps + 1 }, (_, step) => poseAlong(arc, (arc.length * step) / steps));
}
