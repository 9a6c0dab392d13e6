import svgpath from 'svgpath';
import { pathPoints, tooManyPoints } from './path-points.ts';

/** A straight or curved piece of an outline, sampled; a piece that began as one straight line says so. */
export interface OutlinePiece {
  /** Sampled points, ends included; x to the right, y up. */
  readonly xs: readonly number[];
  readonly ys: readonly number[];
  readonly straight: boolean;
}

/** One subpath: pieces in order, each beginning where the one before ends. */
export interface ArtworkOutline {
  readonly pieces: readonly OutlinePiece[];
  readonly closed: boolean;
}

export type OutlinesRead = { readonly ok: true; readonly outlines: readonly ArtworkOutline[] } | { readonly ok: false; readonly reason: string };

const MOST_CHARACTERS = 2_000_000;
/** Points on each Bézier curve, beside its ends; chords then stay within 5 in 10,000 of the radius of a quarter turn. */
const CURVE_SAMPLES = 24;

/**
 * Subpaths from SVG path data (SVG 2 section 9.3): numbers and command letters only, never markup. Coordinates stay
 * in the drawing's own unit, with y turned up. Arcs become Bézier curves to 0.03 % of their radius.
 *
 * `M0 0 H10` gives one outline of one straight piece from (0, 0) to (10, 0).
 */
export function outlinesFromPathData(pathData: string): OutlinesRead {
  if (pathData.length > MOST_CHARACTERS)
    return refused(`The drawing is ${megabytes(pathData.length)} MB of path data; at most ${megabytes(MOST_CHARACTERS)} MB can be read.`);
  const tooMany = tooManyPoints(pathPoints(pathData));
  if (tooMany !== null) return refused(tooMany);
  const parsed = svgpath(pathData);
  // The library's types leave out the error it sets when the data breaks off.
  const error: unknown = (parsed as { readonly err?: unknown }).err;
  if (typeof error === 'string' && error !== '') return refused(`The path data cannot be read: ${error.replace(/^SvgPath: /, '')}.`);

  const outlines: ArtworkOutline[] = [];
  let pieces: OutlinePiece[] = [];
  let startX = 0;
  let startY = 0;
  let finite = true;
  const finish = (closed: boolean): void => {
    if (pieces.length > 0) outlines.push({ pieces, closed });
    pieces = [];
  };
  parsed
    .abs()
    .unarc()
    .unshort()
    .iterate((segment, _index, x, y) => {
      const numbers = segment.slice(1) as number[];
      finite &&= numbers.every((value) => Math.abs(value) < 1e12);
      if (segment[0] === 'M') {
        finish(false);
        [startX, startY] = [numbers[0] ?? 0, numbers[1] ?? 0];
      } else if (segment[0] === 'Z' || segment[0] === 'z') {
        addPiece(pieces, linePiece(x, y, startX, startY));
        finish(true);
      } else if (segment[0] === 'H') addPiece(pieces, linePiece(x, y, numbers[0] ?? 0, y));
      else if (segment[0] === 'V') addPiece(pieces, linePiece(x, y, x, numbers[0] ?? 0));
      else if (segment[0] === 'L') addPiece(pieces, linePiece(x, y, numbers[0] ?? 0, numbers[1] ?? 0));
      else addPiece(pieces, curvePiece([x, y, ...numbers]));
    });
  finish(false);
  if (!finite) return refused('The drawing has coordinates too large to be read.');
  return { ok: true, outlines };
}

function refused(reason: string): OutlinesRead {
  return { ok: false, reason };
}

function megabytes(characters: number): string {
  return (characters / 1e6).toFixed(1);
}

/** Leaves out pieces without length, which have no direction. */
function addPiece(pieces: OutlinePiece[], piece: OutlinePiece): void {
  if (piece.xs.length > 1) pieces.push(piece);
}

function linePiece(x0: number, y0: number, x1: number, y1: number): OutlinePiece {
  if (x0 === x1 && y0 === y1) return { xs: [], ys: [], straight: true };
  return { xs: [x0, x1], ys: [0 - y0, 0 - y1], straight: true };
}

/** A quadratic or cubic Bézier curve from its 3 or 4 control points, evaluated by de Casteljau's rule. */
function curvePiece(control: readonly number[]): OutlinePiece {
  const xs: number[] = [];
  const ys: number[] = [];
  for (let sample = 0; sample <= CURVE_SAMPLES + 1; sample++) {
    const share = sample / (CURVE_SAMPLES + 1);
    const points = [...control];
    for (let count = points.length / 2; count > 1; count--) {
      for (let index = 0; index < 2 * (count - 1); index++) {
        points[index] = (points[index] ?? 0) * (1 - share) + (points[index + 2] ?? 0) * share;
      }
    }
    const x = points[0] ?? 0;
    const y = 0 - (points[1] ?? 0);
    if (x === xs.at(-1) && y === ys.at(-1)) continue;
    xs.push(x);
    ys.push(y);
  }
  return { xs, ys, straight: false };
}
