import type { VNode } from 'preact';
import { useDesk } from '../desk-context.ts';
import { JobNumber } from './JobNumber.tsx';

/** Size, spacing and depth of the letters. */
export function LetterSettings(): VNode {
  const { editor } = useDesk();
  const { letters } = editor.job.value;
  return (
    <div class="fields">
      <JobNumber path="letters.heightFeet" />
      <JobNumber path="letters.spacingHeights" />
      <JobNumber path="letters.depthStretch" />
      {(letters.spacingHeights < 0.15 || letters.spacingHeights > 0.7) && (
        <p class="small note">Readers fail when letters stand closer than 0.15 or wider than 0.7 of their height; 0.3 reads best.</p>
      )}
      {letters.depthStretch > 1 && (
        <p class="small note">Stretched letters look even from the site but were read worse in true perspective; 1 leaves them as drawn.</p>
      )}
    </div>
  );
}
