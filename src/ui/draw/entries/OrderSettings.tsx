import type { VNode } from 'preact';
import type { JobOptions } from '../../../core/job/job.ts';
import { JOB_LIMITS } from '../../../core/job/job-limits.ts';
import { ChoiceField } from '../../fields/ChoiceField.tsx';
import { NumberField } from '../../fields/NumberField.tsx';
import { useDesk } from '../desk-context.ts';

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
      <ChoiceField
        label="Corners"
        value={options.corners}
        choices={[
          { value: 'crisp', label: 'Crisp' },
          { value: 'rounded', label: 'Rounded' },
          { value: 'best', label: 'Whichever is quicker' },
        ]}
        onChange={(corners) => edit('corners', { corners })}
      />
      <NumberField
        label="Run-in"
        unit="s"
        value={options.runInSeconds}
        limits={JOB_LIMITS.options.runInSeconds}
        step={0.5}
        onChange={(runInSeconds) => edit('run-in', { runInSeconds })}
      />
      <NumberField
        label="Run-out"
        unit="s"
        value={options.runOutSeconds}
        limits={JOB_LIMITS.options.runOutSeconds}
        step={0.5}
        onChange={(runOutSeconds) => edit('run-out', { runOutSeconds })}
      />
      <ChoiceField
        label="Low sun ahead on strokes"
        value={options.sunOffNose ? 'off' : 'as-is'}
        choices={[
          { value: 'as-is', label: 'As it comes' },
          { value: 'off', label: 'Rather turn them round' },
        ]}
        onChange={(sun) => edit('sun off the nose', { sunOffNose: sun === 'off' })}
      />
      {options.letterOrder === 'free' && (
        <NumberField
          label="Letter half-written, at most"
          unit="s"
          value={options.longestUnfinishedSeconds}
          limits={JOB_LIMITS.options.longestUnfinishedSeconds}
          step={30}
          outside="Longer, its first strokes spread before its last are written."
          onChange={(longestUnfinishedSeconds) => edit('cap on half-written letters', { longestUnfinishedSeconds })}
        />
      )}
      {ships.length > 1 && (
        <NumberField
          label="Each ship higher by"
          unit="ft"
          value={options.heightStepFeet}
          limits={JOB_LIMITS.options.heightStepFeet}
          step={50}
          onChange={(heightStepFeet) => edit('height step', { heightStepFeet })}
        />
      )}
      {ships.length > 1 && (
        <NumberField
          label="Ships apart, at least"
          unit="ft"
          value={options.separationFeet}
          limits={JOB_LIMITS.options.separationFeet}
          step={100}
          onChange={(separationFeet) => edit('separation', { separationFeet })}
        />
      )}
    </div>
  );
}
