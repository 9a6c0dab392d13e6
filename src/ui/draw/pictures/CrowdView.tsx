import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import { AircraftMarks } from '../../drawing/AircraftMarks.tsx';
import { LetterPicture } from '../../drawing/LetterPicture.tsx';
import { legShare } from '../../drawing/plan-moment.ts';
import { planePathFromAir } from '../../drawing/plane-path.ts';
import { useDesk } from '../desk-context.ts';

const MAXIMUM_HEIGHT_PIXELS = 380;
/** About how wide a letter is with its gap and the margins, in heights. */
const WIDTH_OF_LETTER = 0.62;

/** The text as the crowd sees it at the read time, at the player's instant. */
export function CrowdView(): VNode | null {
  const { planned, player, busyFraction, awaited, editor } = useDesk();
  const plan = planned.value?.plan;
  const smoke = useMemo(() => (plan?.ships ?? []).flatMap(({ legs }) => legs.filter(({ kind }) => kind === 'smoke')), [plan]);
  const strokes = useMemo(() => smoke.map(({ path }) => planePathFromAir(path)), [smoke]);
  if (plan === undefined)
    return awaited.value ? (
      <div
        class="crowd-waiting"
        style={{ aspectRatio: String(expectedAspect(editor.job.value.text)), maxHeight: `${MAXIMUM_HEIGHT_PIXELS}px` }}
        aria-hidden="true"
      />
    ) : null;
  const now = player.atSeconds.value;
  return (
    <figure class="crowd-view" data-busy={busyFraction.value === null ? undefined : 'true'}>
      <LetterPicture
        strokes={strokes}
        letterHeightMetres={plan.letterHeightMetres}
        facingRadians={plan.frame.facingRadians}
        shares={now === null ? null : smoke.map((leg) => legShare(leg, now))}
        maximumHeightPixels={MAXIMUM_HEIGHT_PIXELS}
        description={`${plan.text}, as the crowd reads it from below`}
        {...(now === null ? {} : { overlay: (view) => <AircraftMarks ships={plan.ships} names={[]} view={view} atSeconds={now} /> })}
      />
      <figcaption>As the crowd reads it</figcaption>
    </figure>
  );
}

/** About how wide to how high the picture will be: its room is kept while the first plan is made, so that nothing below jumps. */
function expectedAspect(text: string): number {
  const lines = text.split('\n');
  return Math.max(1, ...lines.map(({ length }) => WIDTH_OF_LETTER * length)) / lines.length;
}
