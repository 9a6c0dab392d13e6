import type { VNode } from 'preact';
import type { JobOptions } from '../../../core/job/job.ts';
import { ChoiceField } from '../../fields/ChoiceField.tsx';
import { useDesk } from '../desk-context.ts';
import { JobNumber } from './JobNumber.tsx';

/** In which order and how the strokes are written. */
export function OrderSettings(): VNode {
  const { editor } = useDesk();
  const { options, ships } = editor.job.value;
  const edit = (name: string, part: Partial<JobOptions>): void => editor.edit(name, (job) => ({ ...job, options: { ...job.options, ...part } }));
  return (
    <div class="fields">
      <ChoiceField
        label="Letters"
        value={options.letterOrder}
        choices={[
          { value: 'reading', label: 'One after another' },
          { value: 'free', label: 'Strokes in any order' },
        ]}
        onChange={(letterOrder) => edit('letter order', { letterOrder })}
      />
      <ChoiceField
        label="Progress"
        value={options.progress}
        choices={[
          { value: 'into-wind', label: 'Into the wind' },
          { value: 'free', label: 'Either way' },
        ]}
        onChange={(progress) => edit('progress', { progress })}
      />
      <JobNumber path="options.runInSeconds" />
      <JobNumber path="options.runOutSeconds" />
      <ChoiceField
        label="Low sun ahead on strokes"
        value={options.sunOffNose ? 'off' : 'as-is'}
        choices={[
          { value: 'as-is', label: 'Fly them towards it' },
          { value: 'off', label: 'Turn them round' },
        ]}
        onChange={(sun) => edit('sun off the nose', { sunOffNose: sun === 'off' })}
      />
      {options.letterOrder === 'free' && <JobNumber path="options.longestUnfinishedSeconds" />}
      {ships.length > 1 && <JobNumber path="options.heightStepFeet" />}
      {ships.length > 1 && <JobNumber path="options.joinUpStepFeet" />}
      {ships.length > 1 && <JobNumber path="options.separationFeet" />}
    </div>
  );
}
