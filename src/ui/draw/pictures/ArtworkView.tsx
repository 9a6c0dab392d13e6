import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import type { Job } from '../../../core/job/job.ts';
import type { Artwork, UnflyablePart } from '../../../core/artwork/artwork.ts';
import type { ArtworkChange } from '../../../core/artwork/flown-runs.ts';
import { createSvgPathSink } from '../../../core/letters/letter-drawing.ts';
import { type Plan, planGap } from '../../../core/plan/plan.ts';
import { FigureRow } from '../../fields/FigureRow.tsx';
import { LetterPicture } from '../../drawing/LetterPicture.tsx';
import { formatDuration, formatNumber } from '../../../core/text/number-formats.ts';
import type { PictureView } from '../../drawing/picture-view.ts';
import { drawPlanePath, planePathFromLetter } from '../../drawing/plane-path.ts';
import { viewSink } from '../../drawing/view-sink.ts';
import { PlanExport } from '../PlanExport.tsx';
import { useUnitText } from '../../fields/units-context.ts';

export interface ArtworkViewProps {
  readonly job: Job;
  readonly title: string;
  readonly artwork: Artwork;
  /** Elements of the file that hold no line. */
  readonly passedOver: readonly string[];
  /** Filled shapes that are flown by their middle line. */
  readonly middleLines: number;
  /** Undefined while it is being looked for, null when nothing can be flown. */
  readonly plan: Plan | null | undefined;
}

const REASONS_SHOWN = 6;
/** As a letter of this share of the drawing would be inked. */
const INK_SHARE = 0.4;

/** The drawing as it was drawn and, beside it, as it is flown: the rest dashed with its numbers and reasons. */
export function ArtworkView({ job, title, artwork, passedOver, middleLines, plan }: ArtworkViewProps): VNode {
  const units = useUnitText();
  const strokes = useMemo(() => artwork.strokes.map(({ path }) => planePathFromLetter(path)), [artwork]);
  const drawn = useMemo(() => artwork.drawn.map(planePathFromLetter), [artwork]);
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
      <div class="compared-pictures">
        <figure>
          <LetterPicture
            strokes={drawn}
            letterHeightMetres={artwork.depthMetres * INK_SHARE}
            facingRadians={null}
            shares={null}
            maximumHeightPixels={260}
            description={`${title} as it was drawn`}
          />
          <figcaption>As drawn</figcaption>
        </figure>
        <figure>
          <LetterPicture
            strokes={all}
            letterHeightMetres={artwork.depthMetres * INK_SHARE}
            facingRadians={null}
            shares={shares}
            maximumHeightPixels={260}
            description={`${title} as it is flown: ${percent} % of its lines`}
            overlay={marks}
          />
          <figcaption>As flown</figcaption>
        </figure>
      </div>
      {middleLines > 0 && (
        <p class="small" data-artwork-middles={middleLines}>
          {middleLines === 1 ? 'One filled shape is' : `${middleLines} filled shapes are`} flown by {middleLines === 1 ? 'its' : 'their'} middle line.
        </p>
      )}
      <ChangeList changes={artwork.changes} depthMetres={artwork.depthMetres} />
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
            from {units.height.text(units.height.rounded(artwork.smallestDepthMetres, 10, 'up'))} deep
          </FigureRow>
        )}
        {plan !== undefined && plan !== null && (
          <FigureRow
            label="First smoke to last, one ship"
            name="artwork-seconds"
            value={plan.durationSeconds.toFixed(1)}
            note={`smoke on ${formatDuration(plan.ships[0]?.smokeSeconds ?? 0)}, ${units.mass.text(plan.ships[0]?.oilKilograms ?? 0)} of oil, ${boundWords(planGap(plan))}`}
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

const CHANGE_WORDS: Readonly<Record<ArtworkChange['kind'], readonly [one: string, many: string]>> = {
  'corner-rounded': ['corner rounded', 'corners rounded'],
  'tight-widened': ['tight bend widened', 'tight bends widened'],
  'ring-widened': ['small ring widened', 'small rings widened'],
  'ring-dashed': ['small ring made a dash', 'small rings made dashes'],
  'short-lengthened': ['short line lengthened', 'short lines lengthened'],
};

/** What was changed, each kind with its number, and how far the farthest strays. */
function ChangeList({ changes, depthMetres }: { readonly changes: readonly ArtworkChange[]; readonly depthMetres: number }): VNode | null {
  if (changes.length === 0) return null;
  const kinds = Object.entries(CHANGE_WORDS).flatMap(([kind, [one, many]]) => {
    const count = changes.filter((change) => change.kind === kind).length;
    return count === 0 ? [] : [count === 1 ? `1 ${one}` : `${count} ${many}`];
  });
  const share = Math.max(...changes.map(({ strayMetres }) => strayMetres)) / depthMetres;
  return (
    <p class="small" data-artwork-changes={changes.length}>
      Changed so that it can be flown: {kinds.join(', ')}; at most {formatNumber(100 * share, 1)} % of the depth off.
    </p>
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
