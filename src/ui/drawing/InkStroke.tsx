import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import { segmentsLengthMetres } from '../../core/units/arc.ts';
import { brushStroke } from './brush-stroke.ts';
import { partialSegments } from './partial-segments.ts';
import type { PictureView } from './picture-view.ts';
import { drawPlanePath, type PlanePath } from './plane-path.ts';
import { createPolylineSink } from './polyline-sink.ts';
import { viewSink } from './view-sink.ts';

export interface InkStrokeProps {
  readonly path: PlanePath;
  readonly view: PictureView;
  readonly widthPixels: number;
  /** Which hand's unsteadiness: any whole number. */
  readonly seed: number;
  /** How much of the stroke is on the paper yet, 0 to 1 from its start. */
  readonly share: number;
}

/** One stroke as ink on paper by day, chalk on dusk by night (by the page's colours). */
export function InkStroke({ path, view, widthPixels, seed, share }: InkStrokeProps): VNode | null {
  const brush = useMemo(() => {
    if (share <= 0) return null;
    const segments = share >= 1 ? path.segments : partialSegments(path.segments, share * segmentsLengthMetres(path.segments));
    const line = createPolylineSink(3);
    drawPlanePath({ ...path, segments }, viewSink(view, line));
    return brushStroke(line.points(), widthPixels, seed);
  }, [path, view, widthPixels, seed, share]);
  if (brush === null) return null;
  return (
    <g class="ink-stroke">
      <path class="ink" d={brush.outline} />
      {brush.streaks.map((streak, index) => (
        <path key={index} class={`ink-streak ink-streak-${index}`} d={streak} />
      ))}
    </g>
  );
}
