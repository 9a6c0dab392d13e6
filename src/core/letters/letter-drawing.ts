import { arcDisplacement, type PathSegment } from '../units/arc.ts';
import type { LetterPath } from './letter-path.ts';

/** Part of a circle, as a canvas, an SVG path or a test wants it; it sweeps less than two thirds of a turn. */
export interface DrawnArc {
  readonly centreX: number;
  readonly centreY: number;
  readonly radius: number;
  /** Direction from the centre to the arc's start, anticlockwise from x. */
  readonly startRadians: number;
  /** Positive when the arc runs anticlockwise with y up; magnitude in (0, 2 pi / 3]. */
  readonly sweepRadians: number;
  readonly endX: number;
  readonly endY: number;
}

/**
 * Where a drawing goes. Coordinates are in the frame and unit of what is drawn (metres for letter and air paths),
 * y up; a sink that draws on a screen flips and scales them itself.
 */
export interface PathSink {
  moveTo(x: number, y: number): void;
  lineTo(x: number, y: number): void;
  arcTo(arc: DrawnArc): void;
}

/** An arc flatter than this over its whole length draws as a line; its bow is under a ten-millionth of the length. */
const STRAIGHT_TURN_RADIANS = 1e-6;

/**
 * Draws a tangent-continuous path of any plane frame: one `moveTo`, then a line or arcs for each segment. Arcs of a
 * third of a turn and more come in equal parts, so that no sink needs to know about large arcs or whole circles.
 *
 * A half circle of radius 1 from (0, 0) leaving along x gives `moveTo(0, 0)` and two arcs, the last ending at (0, 2).
 */
export function drawSegments(startX: number, startY: number, directionRadians: number, segments: readonly PathSegment[], sink: PathSink): void {
  let x = startX;
  let y = startY;
  let heading = directionRadians;
  sink.moveTo(x, y);
  for (const { lengthMetres, curvaturePerMetre } of segments) {
    const turnRadians = lengthMetres * curvaturePerMetre;
    const straight = Math.abs(turnRadians) < STRAIGHT_TURN_RADIANS;
    const parts = straight ? 1 : Math.ceil(Math.abs(turnRadians) / ((2 * Math.PI) / 3));
    for (let part = 0; part < parts; part++) {
      const step = arcDisplacement(heading, lengthMetres / parts, curvaturePerMetre);
      const endX = x + step.firstMetres;
      const endY = y + step.secondMetres;
      if (straight) {
        sink.lineTo(endX, endY);
      } else {
        const radius = 1 / curvaturePerMetre;
        sink.arcTo({
          centreX: x - radius * Math.sin(heading),
          centreY: y + radius * Math.cos(heading),
          radius: Math.abs(radius),
          startRadians: heading - Math.sign(radius) * (Math.PI / 2),
          sweepRadians: turnRadians / parts,
          endX,
          endY,
        });
      }
      x = endX;
      y = endY;
      heading += turnRadians / parts;
    }
  }
}

/**
 * Draws a stroke as the crowd sees it, in metres of the letter frame; see {@link drawSegments}.
 *
 * @oracle
 */
export function drawLetterPath(path: LetterPath, sink: PathSink): void {
  drawSegments(path.start.xMetres, path.start.yMetres, path.start.directionRadians, path.segments, sink);
}

/** A sink that writes SVG path data; `pathData()` returns what was drawn so far. */
export interface SvgPathSink extends PathSink {
  pathData(): string;
}

/**
 * Collects SVG path data (SVG 2 section 9.3), with y turned down as SVG wants it and coordinates rounded to
 * `decimals` places. Two paths drawn into one sink become two subpaths.
 *
 * The half circle of {@link drawSegments} gives `M0 0A1 1 0 0 0 1 -1A1 1 0 0 0 0 -2` (rounded to 0 decimals).
 */
export function createSvgPathSink(decimals = 1): SvgPathSink {
  const parts: string[] = [];
  // Adding zero turns a rounded -0 into 0.
  const write = (value: number): string => String(Number(value.toFixed(decimals)) + 0);
  return {
    moveTo: (x, y) => void parts.push(`M${write(x)} ${write(-y)}`),
    lineTo: (x, y) => void parts.push(`L${write(x)} ${write(-y)}`),
    arcTo: ({ radius, sweepRadians, endX, endY }) =>
      void parts.push(`A${write(radius)} ${write(radius)} 0 0 ${sweepRadians > 0 ? 0 : 1} ${write(endX)} ${write(-endY)}`),
    pathData: () => parts.join(''),
  };
}
