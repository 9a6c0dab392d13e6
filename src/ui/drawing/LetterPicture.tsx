import './pictures.css';
import type { ComponentChildren, VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import { createSvgPathSink } from '../../core/letters/letter-drawing.ts';
import { InkStroke } from './InkStroke.tsx';
import { fittingView, type PictureView } from './picture-view.ts';
import { drawPlanePath, type PlanePath, planePathsBox } from './plane-path.ts';
import { useElementWidth } from './use-element-width.ts';
import { viewSink } from './view-sink.ts';

export interface LetterPictureProps {
  /** The strokes, in the letter frame, or in the air-mass frame together with `facingRadians`. */
  readonly strokes: readonly PlanePath[];
  readonly letterHeightMetres: number;
  /** Azimuth the crowd looks; null for strokes of the letter frame. */
  readonly facingRadians: number | null;
  /** How much of each stroke is written, 0 to 1; null when all of all are. */
  readonly shares: readonly number[] | null;
  readonly maximumHeightPixels: number;
  /** What a person who cannot see it is told. */
  readonly description: string;
  /** Drawn over the strokes, in picture pixels with SVG's y (down from the top, shifted by the height). */
  readonly overlay?: (view: PictureView) => ComponentChildren;
}

/** Ink as wide as this share of a letter: broader than smoke, as a poster's letters are. */
const INK_SHARE = 0.085;

/** The text as the crowd sees it from below, in ink: what the whole job is for. */
export function LetterPicture(props: LetterPictureProps): VNode {
  const { strokes, letterHeightMetres, facingRadians, shares, maximumHeightPixels, description, overlay } = props;
  const { element, widthPixels } = useElementWidth<HTMLDivElement>();
  const turnRadians = -(facingRadians ?? 0);
  const mirrored = facingRadians !== null;
  const turned = useMemo(() => planePathsBox(strokes, turnRadians, mirrored), [strokes, turnRadians, mirrored]);
  const fitted = useMemo(() => {
    if (turned === null || widthPixels === 0) return null;
    const margin = Math.min(36, Math.max(14, widthPixels * 0.035));
    const proportion = (turned.highYMetres - turned.lowYMetres) / (turned.highXMetres - turned.lowXMetres);
    const wanted = (widthPixels - 2 * margin) * proportion + 2 * margin;
    const heightPixels = Math.round(Math.min(maximumHeightPixels, Number.isFinite(wanted) ? wanted : maximumHeightPixels));
    const size = { widthPixels, heightPixels };
    return { ...size, view: fittingView(turned, size, margin, turnRadians, mirrored) };
  }, [turned, widthPixels, maximumHeightPixels, turnRadians, mirrored]);
  const pencil = useMemo(() => {
    if (fitted === null || shares === null) return '';
    const sink = createSvgPathSink();
    for (const stroke of strokes) drawPlanePath(stroke, viewSink(fitted.view, sink));
    return sink.pathData();
  }, [strokes, fitted, shares === null]);
  const inkPixels = fitted === null ? 0 : Math.max(1.6, letterHeightMetres * fitted.view.pixelsPerMetre * INK_SHARE);
  return (
    <div class="letter-picture" ref={element}>
      {fitted !== null && (
        <svg
          width={fitted.widthPixels}
          height={fitted.heightPixels}
          viewBox={`0 ${-fitted.heightPixels} ${fitted.widthPixels} ${fitted.heightPixels}`}
          role="img"
          aria-label={description}
        >
          {pencil !== '' && <path class="pencil" d={pencil} />}
          {strokes.map((stroke, index) => (
            <InkStroke key={index} path={stroke} view={fitted.view} widthPixels={inkPixels} seed={index} share={shares === null ? 1 : (shares[index] ?? 0)} />
          ))}
          {overlay?.(fitted.view)}
        </svg>
      )}
    </div>
  );
}
