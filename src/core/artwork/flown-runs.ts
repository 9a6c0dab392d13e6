import type { FitArc } from './biarc.ts';
import { joinRuns, lengthOf, poseAlong } from './join-runs.ts';

/** Arcs of a drawing that follow each other without a corner, all of them flyable or all too tight. */
export interface ArcRun {
  readonly arcs: readonly FitArc[];
  readonly tight: boolean;
  /** The run is all there is of its outline. */
  readonly whole: boolean;
}

/** What was changed in a drawing so that a ship can fly it, and how far that strays from it. */
export interface ArtworkChange {
  readonly kind: 'corner-rounded' | 'tight-widened' | 'ring-widened' | 'ring-dashed' | 'short-lengthened';
  readonly strayMetres: number;
}

export interface FlownRunOptions {
  readonly turnRadiusMetres: number;
  readonly shortestMetres: number;
  readonly mostStrayMetres: number;
}

/** The tightest turn of arcs; Infinity when all are straight. */
export function tightestOf(arcs: readonly FitArc[]): number {
  return Math.min(...arcs.map(({ curvature }) => 1 / Math.abs(curvature)));
}

/** Arcs split where they become too tight and where they cease to be; a loop is turned to begin at such a place. */
export function flyableRuns(arcs: readonly FitArc[], loop: boolean, turnRadiusMetres: number): ArcRun[] {
  const isTight = ({ curvature }: FitArc): boolean => Math.abs(curvature) * turnRadiusMetres > 1 + 1e-9;
  const change = arcs.findIndex((arc, index) => index > 0 && isTight(arc) !== isTight(arcs[index - 1] as FitArc));
  const turned = loop && change > 0 ? [...arcs.slice(change), ...arcs.slice(0, change)] : arcs;
  const runs: { arcs: FitArc[]; tight: boolean }[] = [];
  for (const arc of turned) {
    const last = runs.at(-1);
    if (last !== undefined && last.tight === isTight(arc)) last.arcs.push(arc);
    else runs.push({ arcs: [arc], tight: isTight(arc) });
  }
  return runs.map((run) => ({ ...run, whole: runs.length === 1 && loop }));
}

/**
 * One outline's runs as they are flown: joined over corners and over what turns too tightly, where that strays little
 * enough; rings too small widened or made a dash; what is too short drawn longer.
 *
 * @param closed whether the outline runs back into its beginning
 */
export function flownRuns(runs: readonly ArcRun[], closed: boolean, options: FlownRunOptions): { readonly runs: ArcRun[]; readonly changes: ArtworkChange[] } {
  const changes: ArtworkChange[] = [];
  const [only] = runs;
  if (runs.length === 1 && only !== undefined && closed && only.tight) {
    const ring = flownRing(only.arcs, options);
    return ring === null ? { runs: [...runs], changes } : { runs: [ring.run], changes: [ring.change] };
  }
  let left = joinedAlong(runs, options, changes);
  if (closed && left.length > 1) left = joinedRound(left, options, changes);
  else if (closed && left.length === 1 && left[0]?.whole === false && runs.length > 1) left = joinedToItself(left[0], options, changes);
  return { runs: left.map((run) => longEnough(run, options, changes)), changes };
}

/** Runs joined wherever two flyable ones follow each other, or have one too tight between them. */
function joinedAlong(runs: readonly ArcRun[], options: FlownRunOptions, changes: ArtworkChange[]): ArcRun[] {
  const joined: ArcRun[] = [];
  for (let index = 0; index < runs.length; index++) {
    const run = runs[index] as ArcRun;
    const before = joined.at(-1);
    const next = runs[index + 1];
    if (before === undefined || before.tight) joined.push(run);
    else if (!run.tight) {
      const both = joinRuns(before.arcs, [], run.arcs, options.turnRadiusMetres, options.mostStrayMetres);
      if (both === null) joined.push(run);
      else {
        joined[joined.length - 1] = { arcs: both.arcs, tight: false, whole: false };
        changes.push({ kind: 'corner-rounded', strayMetres: both.strayMetres });
      }
    } else if (next !== undefined && !next.tight) {
      const both = joinRuns(before.arcs, run.arcs, next.arcs, options.turnRadiusMetres, options.mostStrayMetres);
      if (both === null) joined.push(run);
      else {
        joined[joined.length - 1] = { arcs: both.arcs, tight: false, whole: false };
        changes.push({ kind: 'tight-widened', strayMetres: both.strayMetres });
        index += 1;
      }
    } else joined.push(run);
  }
  return joined;
}

/** A closed outline's last run joined with its first. */
function joinedRound(runs: readonly ArcRun[], options: FlownRunOptions, changes: ArtworkChange[]): ArcRun[] {
  const first = runs[0] as ArcRun;
  const last = runs.at(-1) as ArcRun;
  const beforeLast = runs.at(-2) as ArcRun;
  if (first.tight) return [...runs];
  const tight = last.tight ? last : null;
  const before = tight === null ? last : beforeLast;
  if (before.tight || before === first) return [...runs];
  const both = joinRuns(before.arcs, tight?.arcs ?? [], first.arcs, options.turnRadiusMetres, options.mostStrayMetres);
  if (both === null) return [...runs];
  changes.push({ kind: tight === null ? 'corner-rounded' : 'tight-widened', strayMetres: both.strayMetres });
  const rest = runs.slice(1, tight === null ? -1 : -2);
  return [{ arcs: both.arcs, tight: false, whole: false }, ...rest];
}

/** The one run that is left of a closed outline, joined end to beginning so that it is a loop. */
function joinedToItself(run: ArcRun, options: FlownRunOptions, changes: ArtworkChange[]): ArcRun[] {
  if (run.tight || run.arcs.length < 2) return [run];
  const half = halves(run.arcs);
  const both = joinRuns(half.second, [], half.first, options.turnRadiusMetres, options.mostStrayMetres);
  if (both === null) return [run];
  changes.push({ kind: 'corner-rounded', strayMetres: both.strayMetres });
  return [{ arcs: both.arcs, tight: false, whole: true }];
}

function halves(arcs: readonly FitArc[]): { readonly first: readonly FitArc[]; readonly second: readonly FitArc[] } {
  const total = lengthOf(arcs);
  let along = 0;
  for (const [index, arc] of arcs.entries()) {
    if (along + arc.length >= total / 2) {
      const at = total / 2 - along;
      const pose = poseAlong(arc, at);
      const rest = { ...arc, startX: pose.x, startY: pose.y, directionX: pose.directionX, directionY: pose.directionY, length: arc.length - at };
      return { first: [...arcs.slice(0, index), { ...arc, length: at }], second: [rest, ...arcs.slice(index + 1)] };
    }
    along += arc.length;
  }
  return { first: arcs, second: arcs };
}

/** A ring that turns too tightly: a wider one where that strays little, else a level dash through its middle. */
function flownRing(
  arcs: readonly FitArc[],
  { turnRadiusMetres, shortestMetres, mostStrayMetres }: FlownRunOptions,
): { run: ArcRun; change: ArtworkChange } | null {
  const points = arcs.flatMap((arc) => [0, 0.25, 0.5, 0.75].map((share) => poseAlong(arc, share * arc.length)));
  const [lowX, highX] = [Math.min(...points.map(({ x }) => x)), Math.max(...points.map(({ x }) => x))];
  const [lowY, highY] = [Math.min(...points.map(({ y }) => y)), Math.max(...points.map(({ y }) => y))];
  const [x, y] = [(lowX + highX) / 2, (lowY + highY) / 2];
  const stray = Math.max(...points.map((point) => Math.abs(turnRadiusMetres - Math.hypot(point.x - x, point.y - y))));
  if (stray <= mostStrayMetres) {
    const length = 2 * Math.PI * turnRadiusMetres;
    const ring: FitArc = { startX: x + turnRadiusMetres, startY: y, directionX: 0, directionY: 1, length, curvature: 1 / turnRadiusMetres };
    return { run: { arcs: [ring], tight: false, whole: true }, change: { kind: 'ring-widened', strayMetres: stray } };
  }
  const half = Math.max(highX - lowX, shortestMetres) / 2;
  const off = Math.max((highY - lowY) / 2, half - (highX - lowX) / 2);
  if (off > mostStrayMetres) return null;
  const dash: FitArc = { startX: x - half, startY: y, directionX: 1, directionY: 0, length: 2 * half, curvature: 0 };
  return { run: { arcs: [dash], tight: false, whole: false }, change: { kind: 'ring-dashed', strayMetres: off } };
}

/** A run at least as long as can be written: straight ends are drawn out on both sides. */
function longEnough(run: ArcRun, { shortestMetres, mostStrayMetres }: FlownRunOptions, changes: ArtworkChange[]): ArcRun {
  const lacking = shortestMetres - lengthOf(run.arcs);
  if (run.tight || run.whole || lacking <= 0 || lacking / 2 > mostStrayMetres) return run;
  const first = run.arcs[0];
  const last = run.arcs.at(-1);
  if (first === undefined || last === undefined) return run;
  const end = poseAlong(last, last.length);
  const lead: FitArc = {
    ...first,
    startX: first.startX - (first.directionX * lacking) / 2,
    startY: first.startY - (first.directionY * lacking) / 2,
    length: lacking / 2,
    curvature: 0,
  };
  const tail: FitArc = { startX: end.x, startY: end.y, directionX: end.directionX, directionY: end.directionY, length: lacking / 2, curvature: 0 };
  changes.push({ kind: 'short-lengthened', strayMetres: lacking / 2 });
  return { ...run, arcs: [lead, ...run.arcs, tail] };
}
