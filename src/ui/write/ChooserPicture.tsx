import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import type { StrokeChoice } from '../../app/flight/stroke-choices.ts';
import type { FlightSetup } from '../../core/guidance/flight-setup.ts';
import type { StrokeProgress } from '../../core/guidance/guidance-state.ts';
import { createSvgPathSink } from '../../core/letters/letter-drawing.ts';
import type { AirPath } from '../../core/paths/air-path.ts';
import { drawPlanePath, planePathFromAir, planePathsBox } from '../drawing/plane-path.ts';
import { viewSink } from '../drawing/view-sink.ts';

export interface ChooserPictureProps {
  readonly setup: FlightSetup;
  readonly progress: readonly StrokeProgress[];
  /** Drawn in full, from where it would be begun. */
  readonly choice: StrokeChoice | null;
  readonly onLook: (strokeIndex: number) => void;
}

/** Around the word, in letter heights. */
const MARGIN_SHARE = 0.18;
const SAMPLES = 24;

/** The word as the crowd sees it: what is written, what is left, and the stroke that would come next. A touch looks at the nearest one left. */
export function ChooserPicture({ setup, progress, choice, onLook }: ChooserPictureProps): VNode | null {
  const turnRadians = -(setup.hanging?.facingRadians ?? 0);
  const { strokes, letterHeightMetres } = setup;
  const drawn = useMemo(() => {
    const view = { pixelsPerMetre: 1, turnRadians, mirrored: true, originXPixels: 0, originUpPixels: 0 };
    const box = planePathsBox(
      strokes.map(({ path }) => planePathFromAir(path)),
      turnRadians,
      true,
    );
    const lineOf = (path: AirPath): string => {
      const sink = createSvgPathSink();
      drawPlanePath(planePathFromAir(path), viewSink(view, sink));
      return sink.pathData();
    };
    return { box, lineOf, lines: strokes.map(({ path }) => lineOf(path)) };
  }, [strokes, turnRadians]);
  const { box, lineOf, lines } = drawn;
  if (box === null) return null;
  const margin = MARGIN_SHARE * letterHeightMetres;
  const wide = box.highXMetres - box.lowXMetres + 2 * margin;
  const high = box.highYMetres - box.lowYMetres + 2 * margin;
  const chosenPath = choice?.path ?? null;

  const look = (event: MouseEvent): void => {
    const svg = event.currentTarget as SVGSVGElement;
    const matrix = svg.getScreenCTM();
    if (matrix === null) return;
    const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
    const apart = [...svg.querySelectorAll<SVGPathElement>('[data-left]')].map((path) => {
      const length = path.getTotalLength();
      const metres = Array.from({ length: SAMPLES + 1 }, (_, sample) => {
        const point = path.getPointAtLength((sample * length) / SAMPLES);
        return Math.hypot(point.x - at.x, point.y - at.y);
      });
      return { strokeIndex: Number(path.dataset['left']), metres: Math.min(...metres) };
    });
    if (apart.length > 0) onLook(apart.reduce((nearest, one) => (one.metres < nearest.metres ? one : nearest)).strokeIndex);
  };

  return (
    <div class="write-ahead write-chooser-picture">
      <svg viewBox={`${box.lowXMetres - margin} ${-box.highYMetres - margin} ${wide} ${high}`} aria-hidden="true" onClick={look}>
        {lines.map((line, index) => {
          const status = progress[index]?.status;
          return <path key={index} d={line} data-status={status} data-left={status === 'to-fly' ? index : undefined} />;
        })}
        {chosenPath !== null && <ChosenStroke path={chosenPath} lineOf={lineOf} />}
      </svg>
    </div>
  );
}

function ChosenStroke({ path, lineOf }: { readonly path: AirPath; readonly lineOf: (path: AirPath) => string }): VNode {
  return (
    <>
      <path class="write-chosen" d={lineOf(path)} />
      <path class="write-chosen-start" d={lineOf({ start: path.start, segments: [{ lengthMetres: 1, curvaturePerMetre: 0 }] })} />
    </>
  );
}
