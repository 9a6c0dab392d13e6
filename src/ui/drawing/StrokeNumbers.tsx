import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import { segmentsLengthMetres } from '../../core/units/arc.ts';
import { labelPlaces } from './label-places.ts';
import { partialSegments } from './partial-segments.ts';
import { type PictureView, pictureDirection, picturePoint } from './picture-view.ts';
import { drawPlanePath, type PlanePath } from './plane-path.ts';
import { createPolylineSink } from './polyline-sink.ts';
import { viewSink } from './view-sink.ts';

export interface StrokeNumbersProps {
  /** In flying order and direction. */
  readonly strokes: readonly PlanePath[];
  readonly view: PictureView;
  /** The stroke being flown, 0-based; null for none. */
  readonly current: number | null;
}

/** Numbers at the strokes' starts and a tick on each that points the way it is flown. */
export function StrokeNumbers({ strokes, view, current }: StrokeNumbersProps): VNode {
  const radius = strokes.length > 24 ? 7.5 : 9;
  const marks = useMemo(() => {
    const line = createPolylineSink(radius * 0.8);
    for (const stroke of strokes) drawPlanePath(stroke, viewSink(view, line));
    const starts = strokes.map((stroke) => ({
      point: picturePoint(stroke.startXMetres, stroke.startYMetres, view),
      directionRadians: pictureDirection(stroke.directionRadians, view),
    }));
    const places = labelPlaces(starts, radius, line.points());
    return strokes.map((stroke, index) => ({ start: starts[index]?.point, place: places[index], tick: tickPath(stroke, view) }));
  }, [strokes, view, radius]);
  return (
    <g class="stroke-numbers">
      {marks.map(({ start, place, tick }, index) =>
        start === undefined || place === undefined ? null : (
          <g key={index} class={index === current ? 'current' : undefined}>
            <path class="tick" d={tick} />
            <path
              class="leader"
              d={`M${start.xPixels.toFixed(1)} ${(-start.upPixels).toFixed(1)}L${place.xPixels.toFixed(1)} ${(-place.upPixels).toFixed(1)}`}
            />
            <circle class="start" cx={start.xPixels.toFixed(1)} cy={(-start.upPixels).toFixed(1)} r="2.2" />
            <circle class="number" cx={place.xPixels.toFixed(1)} cy={(-place.upPixels).toFixed(1)} r={radius} />
            <text x={place.xPixels.toFixed(1)} y={(-place.upPixels).toFixed(1)} font-size={radius * 1.3} dy="0.36em">
              {index + 1}
            </text>
          </g>
        ),
      )}
    </g>
  );
}

const TICK_PIXELS = 10;

/** A small solid arrowhead a little past the stroke's middle. */
function tickPath(stroke: PlanePath, view: PictureView): string {
  const line = createPolylineSink(4);
  drawPlanePath({ ...stroke, segments: partialSegments(stroke.segments, 0.58 * segmentsLengthMetres(stroke.segments)) }, viewSink(view, line));
  const points = line.points();
  const tip = points.at(-1);
  const before = points.at(-2);
  if (tip === undefined || before === undefined) return '';
  const direction = Math.atan2(tip.upPixels - before.upPixels, tip.xPixels - before.xPixels);
  const corner = (turn: number, length: number): string => {
    const radians = direction + turn;
    return `${(tip.xPixels + length * Math.cos(radians)).toFixed(1)} ${(-tip.upPixels - length * Math.sin(radians)).toFixed(1)}`;
  };
  return `M${corner(Math.PI + 0.52, TICK_PIXELS)}L${corner(0, 2)}L${corner(Math.PI - 0.52, TICK_PIXELS)}L${corner(Math.PI, TICK_PIXELS * 0.6)}Z`;
}
