import type { ArtworkOutline, OutlinePiece } from './artwork-outline.ts';
import type { FitPoint } from './biarc.ts';

/** A point of an outline as the fit sees it. */
export interface OutlineSample extends FitPoint {
  /** Arcs may begin and end here; other samples only hold them to the outline. */
  readonly node: boolean;
  /** Arcs must begin and end here, so that straight lines stay straight. */
  readonly kept: boolean;
}

/** A smooth part of an outline, between corners; a loop's last sample is its first again. */
export interface SmoothPart {
  readonly samples: readonly OutlineSample[];
  readonly loop: boolean;
}

/** A bend between two pieces sharper than this ends a stroke. */
const CORNER_RADIANS = Math.PI / 6;
/** A bend smaller than this is only the drawing program's rounding. */
const ROUNDING_RADIANS = 0.02;

/**
 * An outline split at its corners and sampled closely enough to hold a fit to a tolerance. Between straight pieces
 * that approximate a curve, the direction is that of the circle through a point and its two neighbours; a bend at
 * the end of a piece too long to be part of such a curve is a corner, even a slight one.
 *
 * @param tolerance how far a fit may stray, in the outline's unit, above 0
 */
export function smoothParts(outline: ArtworkOutline, tolerance: number): SmoothPart[] {
  const { pieces, closed } = outline;
  const joints = pieces.map((piece, index) => {
    const before = pieces[index - 1] ?? (closed ? pieces.at(-1) : undefined);
    return before === undefined ? null : jointBetween(before, piece, tolerance);
  });
  const cornerIndex = joints.findIndex((joint) => joint === null || joint.corner);
  const loop = cornerIndex === -1;
  // Begin at a corner, if there is one.
  const order = pieces.map((_, index) => (index + Math.max(0, cornerIndex)) % pieces.length);
  const parts: SmoothPart[] = [];
  let samples: OutlineSample[] = [];
  order.forEach((index, position) => {
    const piece = pieces[index] as OutlinePiece;
    const joint = joints[index];
    if (position > 0 && joint?.corner === true) {
      parts.push({ samples, loop: false });
      samples = [];
    }
    const nextPosition = (position + 1) % order.length;
    const next = nextPosition === 0 && !loop ? undefined : joints[order[nextPosition] ?? 0];
    const entry = joint === null || joint === undefined || joint.corner ? directionAt(piece, 0) : joint.directionRadians;
    const leave = next === null || next === undefined || next.corner ? directionAt(piece, 1) : next.directionRadians;
    appendPiece(samples, piece, entry, leave, tolerance);
  });
  parts.push({ samples, loop });
  return parts;
}

interface Joint {
  readonly corner: boolean;
  readonly directionRadians: number;
}

function jointBetween(before: OutlinePiece, after: OutlinePiece, tolerance: number): Joint {
  const inRadians = directionAt(before, 1);
  const bendRadians = wrapped(directionAt(after, 0) - inRadians);
  const bend = Math.abs(bendRadians);
  const longest = Math.max(before.straight ? chordLength(before) : 0, after.straight ? chordLength(after) : 0);
  const bulge = (longest / 2) * Math.tan(bend / 4);
  if (bend > CORNER_RADIANS || (bend > ROUNDING_RADIANS && bulge > tolerance)) return { corner: true, directionRadians: 0 };
  if (before.straight !== after.straight) return { corner: false, directionRadians: before.straight ? inRadians : inRadians + bendRadians };
  if (!before.straight) return { corner: false, directionRadians: inRadians + bendRadians / 2 };
  // The circle through three points leaves the middle one turned in proportion to the chord before it.
  return { corner: false, directionRadians: inRadians + (bendRadians * chordLength(before)) / (chordLength(before) + chordLength(after)) };
}

/** Adds a piece's samples; its first replaces the last one there, which is the same point. */
function appendPiece(samples: OutlineSample[], piece: OutlinePiece, entryRadians: number, leaveRadians: number, tolerance: number): void {
  const kept = piece.straight && chordLength(piece) > 8 * tolerance;
  const count = piece.xs.length;
  const first = samples.pop();
  samples.push(sampleAt(piece, 0, entryRadians, true, kept || first?.kept === true));
  if (piece.straight) {
    // A piece shorter than the tolerance is held by its ends.
    const chord = chordLength(piece);
    const steps = chord < tolerance ? 1 : Math.min(400, Math.ceil(chord / (2 * tolerance)) + 1);
    const [x0 = 0, x1 = 0] = piece.xs;
    const [y0 = 0, y1 = 0] = piece.ys;
    for (let step = 1; step < steps; step++) {
      const share = step / steps;
      samples.push({ x: x0 + (x1 - x0) * share, y: y0 + (y1 - y0) * share, directionX: 0, directionY: 0, node: false, kept: false });
    }
  } else {
    for (let index = 1; index < count - 1; index++) {
      const radians = Math.atan2((piece.ys[index + 1] ?? 0) - (piece.ys[index - 1] ?? 0), (piece.xs[index + 1] ?? 0) - (piece.xs[index - 1] ?? 0));
      samples.push(sampleAt(piece, index, radians, true, false));
    }
  }
  samples.push(sampleAt(piece, count - 1, leaveRadians, true, kept));
}

function sampleAt(piece: OutlinePiece, index: number, radians: number, node: boolean, kept: boolean): OutlineSample {
  return { x: piece.xs[index] ?? 0, y: piece.ys[index] ?? 0, directionX: Math.cos(radians), directionY: Math.sin(radians), node, kept };
}

/** The direction at a piece's start (0) or end (1); a curve's end bends half as much again as its last chords. */
function directionAt({ xs, ys, straight }: OutlinePiece, end: 0 | 1): number {
  const chord = (index: number): number => Math.atan2((ys[index + 1] ?? 0) - (ys[index] ?? 0), (xs[index + 1] ?? 0) - (xs[index] ?? 0));
  const last = xs.length - 2;
  if (straight || last < 1) return chord(end === 0 ? 0 : last);
  if (end === 0) return chord(0) - wrapped(chord(1) - chord(0)) / 2;
  return chord(last) + wrapped(chord(last) - chord(last - 1)) / 2;
}

function chordLength({ xs, ys }: OutlinePiece): number {
  return Math.hypot((xs.at(-1) ?? 0) - (xs[0] ?? 0), (ys.at(-1) ?? 0) - (ys[0] ?? 0));
}

function wrapped(radians: number): number {
  return Math.atan2(Math.sin(radians), Math.cos(radians));
}
