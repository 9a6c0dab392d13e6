import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import { createSvgPathSink } from '../../core/letters/letter-drawing.ts';
import type { Leg, ShipPlan } from '../../core/plan/plan.ts';
import { segmentsLengthMetres } from '../../core/units/arc.ts';
import { partialSegments } from './partial-segments.ts';
import type { PictureView } from './picture-view.ts';
import { legShare } from './plan-moment.ts';
import { drawPlanePath, planePathFromAir } from './plane-path.ts';
import { viewSink } from './view-sink.ts';

export interface FlownStrokesProps {
  readonly ships: readonly ShipPlan[];
  readonly view: PictureView;
  /** Null shows every stroke as written. */
  readonly atSeconds: number | null;
}

/** The strokes of every ship in the air-mass frame: all of them faintly, what is written by now in full. */
export function FlownStrokes({ ships, view, atSeconds }: FlownStrokesProps): VNode {
  const planned = useMemo(() => ships.map((ship) => strokesPath(ship.legs, view, null)), [ships, view]);
  return (
    <>
      {ships.map((ship, index) => (
        <g key={index} class={`flown ship-${index}`}>
          {atSeconds !== null && <path class="planned" d={planned[index]} />}
          <path class="written" d={atSeconds === null ? planned[index] : strokesPath(ship.legs, view, atSeconds)} />
        </g>
      ))}
    </>
  );
}

function strokesPath(legs: readonly Leg[], view: PictureView, atSeconds: number | null): string {
  const sink = createSvgPathSink();
  for (const leg of legs) {
    const share = atSeconds === null ? 1 : legShare(leg, atSeconds);
    if (leg.kind !== 'smoke' || share === 0) continue;
    const path = planePathFromAir(leg.path);
    const segments = share === 1 ? path.segments : partialSegments(path.segments, share * segmentsLengthMetres(path.segments));
    drawPlanePath({ ...path, segments }, viewSink(view, sink));
  }
  return sink.pathData();
}
