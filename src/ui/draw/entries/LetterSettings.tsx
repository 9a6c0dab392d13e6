import type { VNode } from 'preact';
import { betterHeight } from '../../../app/draw/other-plans.ts';
import { formatNumber } from '../../../core/text/number-formats.ts';
import { useDesk } from '../desk-context.ts';
import { Fold } from '../../fields/Fold.tsx';
import { JobNumber } from './JobNumber.tsx';
import { useUnitText } from '../../fields/units-context.ts';

/** Size, spacing and depth of the letters. */
export function LetterSettings(): VNode {
  const { editor } = useDesk();
  const { letters } = editor.job.value;
  return (
    <div class="fields">
      <JobNumber path="letters.heightFeet" />
      <BetterHeight />
      <Fold title="Gap and depth" said={`${formatNumber(letters.spacingHeights, 2)} and ${formatNumber(letters.depthStretch, 2)}`}>
        <JobNumber path="letters.spacingHeights" />
        <JobNumber path="letters.depthStretch" />
      </Fold>
      {(letters.spacingHeights < 0.15 || letters.spacingHeights > 0.7) && (
        <p class="small note">Readers fail when letters stand closer than 0.15 or wider than 0.7 of their height; 0.3 reads best.</p>
      )}
      {letters.depthStretch > 1 && (
        <p class="small note">Stretched letters look even from the site but were read worse in true perspective; 1 leaves them as drawn.</p>
      )}
    </div>
  );
}

/** A height near the one chosen that takes clearly less time, with the key that takes it. */
function BetterHeight(): VNode | null {
  const { editor, problem, settled, otherPlans } = useDesk();
  const units = useUnitText();
  const now = settled.value;
  const better = now === null || problem.value !== null ? null : betterHeight(now, otherPlans.value);
  if (better === null) return null;
  const { heightFeet, savedShare } = better;
  return (
    <p class="small">
      <button
        type="button"
        data-better-height={heightFeet}
        onClick={() => editor.edit('letter height', (job) => ({ ...job, letters: { ...job.letters, heightFeet } }))}
      >
        {`${units.height.own(heightFeet)} would take ${formatNumber(100 * savedShare)} % less time`}
      </button>
    </p>
  );
}
