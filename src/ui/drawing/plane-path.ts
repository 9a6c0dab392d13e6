import { drawSegments, type PathSink } from '../../core/letters/letter-drawing.ts';
import type { LetterPath } from '../../core/letters/letter-path.ts';
import type { AirPath } from '../../core/paths/air-path.ts';
import type { PathSegment } from '../../core/units/arc.ts';
import type { PlaneBox } from './picture-view.ts';
import { createPolylineSink } from './polyline-sink.ts';
import { viewSink } from './view-sink.ts';

/** A path of whichever plane frame a picture shows; the picture's view says which it is. */
export interface PlanePath {
  readonly startXMetres: number;
  readonly startYMetres: number;
  readonly directionRadians: number;
  readonly segments: readonly PathSegment[];
}

/** A letter-frame path for a picture of that frame. */
export function planePathFromLetter({ start, segments }: LetterPath): PlanePath {
  return { startXMetres: start.xMetres, startYMetres: start.yMetres, directionRadians: start.directionRadians, segments };
}

/** An air-mass path for a picture of that frame. */
export function planePathFromAir({ start, segments }: AirPath): PlanePath {
  return { startXMetres: start.airEastMetres, startYMetres: start.airNorthMetres, directionRadians: start.directionRadians, segments };
}

/** Draws a path into a sink, in metres of its own frame. */
export function drawPlanePath(path: PlanePath, sink: PathSink): void {
  drawSegments(path.startXMetres, path.startYMetres, path.directionRadians, path.segments, sink);
}

/** How finely a path is walked to find its extent. */
const BOX_STEP_METRES = 25;

/**
 * The extent of paths in a frame turned and mirrored as a view turns it, short by at most the bow of a 25 m step;
 * null without paths.
 */
export function planePathsBox(paths: readonly PlanePath[], turnRadians: number, mirrored: boolean): PlaneBox | null {
  const sink = createPolylineSink(BOX_STEP_METRES);
  const turned = viewSink({ pixelsPerMetre: 1, turnRadians, mirrored, originXPixels: 0, originUpPixels: 0 }, sink);
  for (const path of paths) drawPlanePath(path, turned);
  const points = sink.points();
  if (points.length === 0) return null;
  let [lowX, highX, lowY, highY] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const { xPixels: x, upPixels: y } of points) {
    lowX = Math.min(lowX, x);
    highX = Math.max(highX, x);
    lowY = Math.min(lowY, y);
    highY = Math.max(highY, y);
  }
  return { lowXMetres: lowX, highXMetres: highX, lowYMetres: lowY, highYMetres: highY };
}
