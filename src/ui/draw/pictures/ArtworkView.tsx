import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import type { Job } from '../../../core/job/job.ts';
import type { Artwork, UnflyablePart } from '../../../core/artwork/artwork.ts';
import { createSvgPathSink } from '../../../core/letters/letter-drawing.ts';
import { type Plan, planGap } from '../../../core/plan/plan.ts';
import { feetFromMetres, poundsFromKilograms } from '../../../core/units/quantity.ts';
import { FigureRow } from '../../fields/FigureRow.tsx';
import { LetterPicture } from '../../drawing/LetterPicture.tsx';
import { formatDuration, formatNumber } from '../../../core/text/number-formats.ts';
import type { PictureView } from '../../drawing/picture-view.ts';
import { drawPlanePath, planePathFromLetter } from '../../drawing/plane-path.ts';
import { viewSink } from '../../drawing/view-sink.ts';
import { PlanExport } from '../PlanExport.tsx';

export interface ArtworkViewProps {
  readonly job: Job;
  readonly title: string;
  readonly artwork: Artwork;
  /** Elements of the file that hold no line. */
  readonly passedOver: readonly string[];
  /** Undefined while it is being looked for, null when nothing can be flown. */
  readonly plan: Plan | null | undefined;
}

const REASONS_SHOWN = 6;
/** As a letter of this share of the drawing would be inked. */
const INK_SHARE = 0.4;

/** The drawing as the crowd would read it: what can be flown in ink, the rest dashed with its numbers and reasons. */
export function ArtworkView({ job, title, artwork, passedOver, plan }: ArtworkViewProps): VNode {
  const strokes = useMemo(() => artwork.strokes.map(({ path }) => planePathFromLetter(path)), [artwork]);
  const unflyable = useMemo(() => artwork.unflyable.map(({ path }) => planePathFromLetter(path)), [artwork]);
  const all = useMemo(() => [...strokes, ...unflyable], [strokes, unflyable]);
  const shares = useMemo(() => all.map((_, index) => (index < strokes.length ? 1 : 0)), [all, strokes]);
  const marks = (view: PictureView): VNode => (
    <g class="artwork-unflyable">
      {unflyable.map((path, index) => {
        const sink = createSvgPathSink();
        drawPlanePath(path, viewSink(view, sink));
        return <path key={index} d={sink.pathData()} />;
      })}
    </g>
  );
  const percent = formatNumber(100 * artwork.flyableShare);
  return (
    <div class="artwork-view" data-artwork="read" data-strokes={artwork.strokes.length} data-unflyable={artwork.unflyable.length}>
      <LetterPicture
        strokes={all}
        letterHeightMetres={artwork.depthMetres * INK_SHARE}
        facingRadians={null}
        shares={shares}
        maximumHeightPixels={320}
        description={`${title}: ${percent} % of its lines can be flown`}
        overlay={marks}
      />
      <dl class="figure-rows">
        <FigureRow
          label="Can be flown"
          name="flyable-share"
          value={artwork.flyableShare.toFixed(3)}
          note={artwork.strokes.length === 1 ? 'in 1 stroke' : `in ${artwork.strokes.length} strokes`}
        >
          {percent} %
        </FigureRow>
        {artwork.smallestDepthMetres > artwork.depthMetres * 1.001 && (
          <FigureRow label="All of its curves" name="smallest-depth-metres" value={artwork.smallestDepthMetres.toFixed(0)} note="or with more bank, or slower">
            from {formatNumber(Math.ceil(feetFromMetres(artwork.smallestDepthMetres) / 100) * 100)} ft deep
          </FigureRow>
        )}
        {plan !== undefined && plan !== null && (
          <FigureRow
            label="First smoke to last, one ship"
            name="artwork-seconds"
            value={plan.durationSeconds.toFixed(1)}
            note={`smoke on ${formatDuration(plan.ships[0]?.smokeSeconds ?? 0)}, ${formatNumber(poundsFromKilograms(plan.ships[0]?.oilKilograms ?? 0))} lb of oil, ${boundWords(planGap(plan))}`}
          >
            {formatDuration(plan.durationSeconds)}
          </FigureRow>
        )}
      </dl>
      {plan === undefined && (
        <p class="quiet" role="status">
          Looking for the best order
        </p>
      )}
      {artwork.unflyable.length > 0 && <Unflyable parts={artwork.unflyable} />}
      {passedOver.length > 0 && <p class="small">Passed over, since it is no line: {passedOver.join(', ')}.</p>}
      {plan !== undefined && plan !== null && <PlanExport job={job} plan={plan} title={title.replace(/\.svg$/i, '')} />}
    </div>
  );
}

function Unflyable({ parts }: { readonly parts: readonly UnflyablePart[] }): VNode {
  const longestFirst = parts.toSorted((one, other) => other.lengthMetres - one.lengthMetres);
  return (
    <div class="notice caution">
      <p>
        <strong>
          {parts.length} {parts.length === 1 ? 'part' : 'parts'} cannot be flown as drawn
        </strong>{' '}
        (dashed above):
      </p>
      <ul>
        {longestFirst.slice(0, REASONS_SHOWN).map(({ reason, lengthMetres }, index) => (
          <li key={index}>
            {formatNumber(lengthMetres)} m: {reason}
          </li>
        ))}
      </ul>
      {parts.length > REASONS_SHOWN && <p>and {parts.length - REASONS_SHOWN} more</p>}
    </div>
  );
}

function boundWords(gap: number): string {
  return gap < 5e-5 ? 'the best order, proven' : `within ${formatNumber(100 * gap, 1)} % of the best order`;
}
