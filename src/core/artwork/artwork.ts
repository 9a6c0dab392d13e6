import { positiveRadians } from '../units/angle.ts';
import type { PathSegment } from '../units/arc.ts';
import { type ArtworkOutline, outlinesFromPathData } from './artwork-outline.ts';
import type { FitArc } from './biarc.ts';
import { fitArcs } from './fit-arcs.ts';
import { type ArtworkChange, flownRuns, flyableRuns, tightestOf } from './flown-runs.ts';
import { lengthOf } from './join-runs.ts';
import { type LetterPath, letterPathLengthMetres, letterPoseAt } from '../letters/letter-path.ts';
import { smoothParts } from './outline-samples.ts';

/** A stroke of a drawing; a closed one ends where and as it began and may be started anywhere. */
export interface ArtworkStroke {
  readonly path: LetterPath;
  readonly closed: boolean;
}

/** A part of a drawing that no ship can fly as drawn, and why. */
export interface UnflyablePart {
  readonly path: LetterPath;
  readonly problem: 'too-tight' | 'too-short';
  readonly lengthMetres: number;
  /** The tightest turn in it; null for a straight one. */
  readonly radiusMetres: number | null;
  /** For a person, with the numbers. */
  readonly reason: string;
}

/** A drawing as strokes in the letter frame, its middle at the origin. */
export interface Artwork {
  readonly strokes: readonly ArtworkStroke[];
  readonly unflyable: readonly UnflyablePart[];
  /** The lines as they were drawn, to lay beside the strokes. */
  readonly drawn: readonly LetterPath[];
  /** What was changed so that it can be flown. */
  readonly changes: readonly ArtworkChange[];
  readonly widthMetres: number;
  readonly depthMetres: number;
  /** Share of the drawing's length that can be flown, 0 to 1. */
  readonly flyableShare: number;
  /** The depth at which nothing would be too tight; the given one when nothing is. */
  readonly smallestDepthMetres: number;
}

export type ArtworkRead = { readonly ok: true; readonly artwork: Artwork } | { readonly ok: false; readonly reason: string };

export interface ArtworkOptions {
  /** From the drawing's lowest to its highest point. */
  readonly depthMetres: number;
  /** The radius the ship writes with. */
  readonly turnRadiusMetres: number;
  /** How far strokes may stray from the drawing; a hundredth of the depth, a tenth of a smoke's width, by default. */
  readonly toleranceMetres?: number;
  /** How far what is rounded, widened or lengthened may stray; 0.12 of the depth by default, 0 to change nothing. */
  readonly mostStrayMetres?: number;
  /** Shorter strokes are over before the valve is; 110 m, two seconds of smoke, by default. */
  readonly shortestMetres?: number;
}

const MOST_STROKES = 200;
/** What is rounded or widened may stray so far from the drawing, in its depths. */
const MOST_STRAY_DEPTHS = 0.12;
/** An hour of smoke; nobody carries oil for more. */
const LONGEST_METRES = 200_000;

/**
 * A drawing's path data (SVG 2 section 9.3) as strokes a ship can fly: lines and arcs without corners, within a
 * tolerance of the drawing. Corners are rounded and tight parts widened where that strays by at most 0.12 of the depth,
 * rings too small become dashes, and what is too short is drawn as long as it must be; all of that is told. What still
 * turns tighter than the ship, or is too short, comes apart from the rest, with the reason. 100,000 points are refused in well under two seconds.
 *
 * A circle at a depth of 1,200 m is one closed stroke of radius 600 m; at 400 m it is too tight for 293 m.
 */
export function artworkFromPathData(pathData: string, options: ArtworkOptions): ArtworkRead {
  const { depthMetres, turnRadiusMetres, toleranceMetres = depthMetres / 100, shortestMetres = 110 } = options;
  const { mostStrayMetres = MOST_STRAY_DEPTHS * depthMetres } = options;
  if (!(depthMetres > 0 && Number.isFinite(depthMetres))) return refused('The drawing needs a depth above zero.');
  if (!(turnRadiusMetres > 0 && Number.isFinite(turnRadiusMetres))) {
    return refused('The ship does not turn: the bank must be above 0 and under 90 degrees, and the speed above zero.');
  }
  if (!(toleranceMetres > 0 && Number.isFinite(toleranceMetres))) throw new RangeError(`toleranceMetres ${toleranceMetres}`);
  if (!(shortestMetres >= 0 && Number.isFinite(shortestMetres))) throw new RangeError(`shortestMetres ${shortestMetres}`);
  const read = outlinesFromPathData(pathData);
  if (!read.ok) return read;
  if (read.outlines.length === 0) return refused('The drawing has no lines.');
  const sized = sizedOutlines(read.outlines, depthMetres);
  if (sized === null) return refused('The drawing has no depth: it is one level line or one point.');
  if (sized.lengthMetres > LONGEST_METRES) {
    return refused(
      `The drawing is ${kilometres(sized.lengthMetres)} long at this size; at most ${kilometres(LONGEST_METRES)} can be written. Leave lines out or write it smaller.`,
    );
  }
  const outlines = sized.outlines.map((outline) => ({ parts: smoothParts(outline, toleranceMetres), closed: outline.closed }));
  const partCount = outlines.reduce((sum, { parts }) => sum + parts.length, 0);
  if (partCount > MOST_STROKES) {
    return refused(`The drawing has ${partCount.toLocaleString('en')} strokes; at most ${MOST_STROKES} can be written. Join lines or leave some out.`);
  }

  const strokes: ArtworkStroke[] = [];
  const unflyable: UnflyablePart[] = [];
  const changes: ArtworkChange[] = [];
  const drawn: LetterPath[] = [];
  let flyableMetres = 0;
  let unflyableMetres = 0;
  let tightestMetres = Infinity;
  for (const { parts, closed } of outlines) {
    const runs = parts.flatMap((part) => flyableRuns(fitArcs(part, toleranceMetres, turnRadiusMetres), part.loop, turnRadiusMetres));
    for (const { arcs } of runs) drawn.push(...[pathFromArcs(arcs)].filter((path) => path !== null));
    for (const { arcs, tight } of runs) if (tight) tightestMetres = Math.min(tightestMetres, tightestOf(arcs));
    const flown = flownRuns(runs, closed, { turnRadiusMetres, shortestMetres, mostStrayMetres });
    changes.push(...flown.changes);
    for (const { arcs, tight, whole } of flown.runs) {
      const lengthMetres = lengthOf(arcs);
      const radiusMetres = tightestOf(arcs);
      const path = pathFromArcs(arcs);
      if (path === null) continue;
      if (!tight && lengthMetres >= shortestMetres * (1 - 1e-9)) {
        strokes.push({ path, closed: whole && closed && meetsItself(path) });
        flyableMetres += lengthMetres;
      } else {
        unflyableMetres += lengthMetres;
        unflyable.push({
          path,
          problem: tight ? 'too-tight' : 'too-short',
          lengthMetres,
          radiusMetres: Number.isFinite(radiusMetres) ? radiusMetres : null,
          reason: tight
            ? `Turns on ${Math.round(radiusMetres)} m; the ship needs ${Math.round(turnRadiusMetres)} m.`
            : `Only ${Math.round(lengthMetres)} m long; strokes under ${Math.round(shortestMetres)} m cannot be written.`,
        });
      }
    }
  }
  return {
    ok: true,
    artwork: {
      strokes,
      unflyable,
      drawn,
      changes,
      widthMetres: sized.widthMetres,
      depthMetres,
      flyableShare: flyableMetres / Math.max(flyableMetres + unflyableMetres, Number.MIN_VALUE),
      smallestDepthMetres: depthMetres * Math.max(1, turnRadiusMetres / tightestMetres),
    },
  };
}

/** A line drawn there and back closes its outline, and is still a line when it is flown. */
const MEETS_METRES = 1e-3;

function meetsItself(path: LetterPath): boolean {
  const end = letterPoseAt(path, letterPathLengthMetres(path));
  return Math.hypot(end.xMetres - path.start.xMetres, end.yMetres - path.start.yMetres) < MEETS_METRES;
}

function refused(reason: string): { readonly ok: false; readonly reason: string } {
  return { ok: false, reason };
}

function kilometres(metres: number): string {
  return `${Math.round(metres / 1000).toLocaleString('en')} km`;
}

interface SizedOutlines {
  readonly outlines: readonly ArtworkOutline[];
  readonly widthMetres: number;
  readonly lengthMetres: number;
}

/** The outlines in metres round their middle; null when they have no depth. */
function sizedOutlines(outlines: readonly ArtworkOutline[], depthMetres: number): SizedOutlines | null {
  let [minX, maxX, minY, maxY] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const { xs, ys } of outlines.flatMap(({ pieces }) => pieces)) {
    for (const x of xs) [minX, maxX] = [Math.min(minX, x), Math.max(maxX, x)];
    for (const y of ys) [minY, maxY] = [Math.min(minY, y), Math.max(maxY, y)];
  }
  const scale = depthMetres / (maxY - minY);
  if (!(maxY > minY && Number.isFinite(scale) && Number.isFinite((maxX - minX) * scale))) return null;
  let lengthMetres = 0;
  const sized = outlines.map(({ pieces, closed }) => ({
    closed,
    pieces: pieces.map(({ xs, ys, straight }) => {
      const metresX = xs.map((x) => (x - (minX + maxX) / 2) * scale);
      const metresY = ys.map((y) => (y - (minY + maxY) / 2) * scale);
      for (let index = 1; index < metresX.length; index++) {
        lengthMetres += Math.hypot((metresX[index] ?? 0) - (metresX[index - 1] ?? 0), (metresY[index] ?? 0) - (metresY[index - 1] ?? 0));
      }
      return { xs: metresX, ys: metresY, straight };
    }),
  }));
  return { outlines: sized, widthMetres: (maxX - minX) * scale, lengthMetres };
}

/** The path along arcs that follow each other, equal neighbours made one; null without any. */
function pathFromArcs(arcs: readonly FitArc[]): LetterPath | null {
  const [first] = arcs;
  if (first === undefined) return null;
  const segments: PathSegment[] = [];
  for (const { length, curvature } of arcs) {
    const last = segments.at(-1);
    if (last !== undefined && Math.abs(last.curvaturePerMetre - curvature) * length < 1e-9) {
      segments[segments.length - 1] = { lengthMetres: last.lengthMetres + length, curvaturePerMetre: last.curvaturePerMetre };
    } else segments.push({ lengthMetres: length, curvaturePerMetre: curvature });
  }
  return {
    start: { xMetres: first.startX, yMetres: first.startY, directionRadians: positiveRadians(Math.atan2(first.directionY, first.directionX)) },
    segments,
  };
}
