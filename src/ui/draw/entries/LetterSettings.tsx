import type { VNode } from 'preact';
import type { JobLetters } from '../../../core/job/job.ts';
import { JOB_LIMITS } from '../../../core/job/job-limits.ts';
import { NumberField } from '../../fields/NumberField.tsx';
import { useDesk } from '../desk-context.ts';

/** Size, spacing and depth of the letters. */
export function LetterSettings(): VNode {
  const { editor } = useDesk();
  const { letters } = editor.job.value;
  const edit = (name: string, part: Partial<JobLetters>): void => editor.edit(name, (job) => ({ ...job, letters: { ...job.letters, ...part } }));
  return (
    <div class="fields">
      <NumberField
        label="Letter height"
        unit="ft"
        value={letters.heightFeet}
        limits={JOB_LIMITS.letters.heightFeet}
        step={100}
        onChange={(heightFeet) => edit('letter height', { heightFeet })}
      />
      <NumberField
        label="Gap, share of height"
        unit=""
        value={letters.spacingHeights}
        limits={JOB_LIMITS.letters.spacingHeights}
        step={0.05}
        onChange={(spacingHeights) => edit('spacing', { spacingHeights })}
      />
      <NumberField
        label="Stretch in depth"
        unit={'\u00d7'}
        value={letters.depthStretch}
        limits={JOB_LIMITS.letters.depthStretch}
        step={0.1}
        onChange={(depthStretch) => edit('depth stretch', { depthStretch })}
      />
      {(letters.spacingHeights < 0.15 || letters.spacingHeights > 0.7) && (
        <p class="small note">Readers fail when letters stand closer than 0.15 or wider than 0.7 of their height; 0.3 reads best.</p>
      )}
      {letters.depthStretch > 1 && (
        <p class="small note">Stretched letters look even from the site but were read worse in true perspective; 1 leaves them as drawn.</p>
      )}
    </div>
  );
}
