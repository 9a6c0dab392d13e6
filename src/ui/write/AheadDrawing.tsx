import { type ReadonlySignal, useComputed, useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useLayoutEffect, useMemo, useRef } from 'preact/hooks';
import type { FlightView } from '../../core/guidance/flight-view.ts';
import { createSvgPathSink, drawSegments } from '../../core/letters/letter-drawing.ts';
import { type AirPath, airPathLengthMetres } from '../../core/paths/air-path.ts';
import { PEN_NIB, PEN_NIB_SLIT } from '../drawing/pen-nib.ts';
import { type AheadFrame, aheadFrame, type AheadSize, aheadTransform } from './ahead-view.ts';
import { strokeEndMark } from './stroke-end-mark.ts';

const NIB_SCALE = 1.7;

export interface AheadDrawingProps {
  readonly view: ReadonlySignal<FlightView | null>;
  readonly smoking: ReadonlySignal<boolean>;
  /** Darkens the screen for a pilot who goes on by ear. */
  readonly onTouch: () => void;
}

/**
 * What lies ahead as the cockpit sees it, nose up: the way there dashed, the stroke to be written hollow, what is
 * written of it full. The drawing is made once for a path and a scale; a tick only turns and moves it.
 */
export function AheadDrawing({ view, smoking, onTouch }: AheadDrawingProps): VNode {
  const element = useRef<HTMLDivElement>(null);
  const size = useSignal<AheadSize>({ widthPixels: 0, heightPixels: 0 });
  const kept = useRef<AheadFrame | null>(null);
  useLayoutEffect(() => {
    const box = element.current;
    if (box === null) return;
    const measure = (): void => {
      kept.current = null;
      size.value = { widthPixels: box.clientWidth, heightPixels: box.clientHeight };
    };
    const observer = new ResizeObserver(measure);
    observer.observe(box);
    measure();
    return () => observer.disconnect();
  }, []);

  const frame = useComputed(() => {
    const current = view.value;
    if (current?.own == null || size.value.heightPixels === 0) return null;
    kept.current = aheadFrame(current.own, current, size.value, kept.current);
    return kept.current;
  });
  const transform = useComputed(() => {
    const own = view.value?.own;
    return own == null || frame.value === null ? '' : aheadTransform(own, frame.value);
  });
  const way = useComputed(() => view.value?.way ?? null);
  const stroke = useComputed(() => view.value?.stroke ?? null);
  const done = useComputed(() => {
    const current = view.value;
    if (current?.stroke == null) return '0 1';
    const share = Math.min(1, current.strokeDoneMetres / Math.max(1, airPathLengthMetres(current.stroke)));
    return `${share.toFixed(3)} 2`;
  });

  const shown = frame.value;
  return (
    <div class="write-ahead" ref={element} onClick={onTouch}>
      {shown !== null && (
        <svg aria-hidden="true" data-smoking={smoking.value ? 'yes' : 'no'}>
          <g transform={transform}>
            <WayDrawing way={way.value} pixelsPerMetre={shown.pixelsPerMetre} />
            <StrokeDrawing stroke={stroke.value} pixelsPerMetre={shown.pixelsPerMetre} done={done} />
          </g>
          <g class="write-own" transform={`translate(${shown.ownXPixels} ${shown.ownYPixels}) rotate(-90) scale(${NIB_SCALE})`}>
            <path d={PEN_NIB} />
            <path class="write-own-slit" d={PEN_NIB_SLIT} />
          </g>
        </svg>
      )}
    </div>
  );
}

function WayDrawing({ way, pixelsPerMetre }: { readonly way: AirPath | null; readonly pixelsPerMetre: number }): VNode | null {
  const data = useMemo(() => (way === null ? '' : pathData(way, pixelsPerMetre)), [way, pixelsPerMetre]);
  return data === '' ? null : <path class="write-way" d={data} />;
}

interface StrokeDrawingProps {
  readonly stroke: AirPath | null;
  readonly pixelsPerMetre: number;
  readonly done: ReadonlySignal<string>;
}

function StrokeDrawing({ stroke, pixelsPerMetre, done }: StrokeDrawingProps): VNode | null {
  const drawn = useMemo(
    () => (stroke === null ? null : { line: pathData(stroke, pixelsPerMetre), end: strokeEndMark(stroke, pixelsPerMetre) }),
    [stroke, pixelsPerMetre],
  );
  if (drawn === null) return null;
  return (
    <g class="write-stroke">
      <path class="write-stroke-edge" d={drawn.line} />
      <path class="write-stroke-paper" d={drawn.line} />
      <path class="write-stroke-ink" d={drawn.line} pathLength="1" stroke-dasharray={done} />
      <path class="write-stroke-end" d={drawn.end} />
    </g>
  );
}

function pathData(path: AirPath, pixelsPerMetre: number): string {
  const sink = createSvgPathSink();
  drawSegments(
    path.start.airEastMetres * pixelsPerMetre,
    path.start.airNorthMetres * pixelsPerMetre,
    path.start.directionRadians,
    path.segments.map(({ lengthMetres, curvaturePerMetre }) => ({
      lengthMetres: lengthMetres * pixelsPerMetre,
      curvaturePerMetre: curvaturePerMetre / pixelsPerMetre,
    })),
    sink,
  );
  return sink.pathData();
}
