import type { VNode } from 'preact';
import { useState } from 'preact/hooks';
import type { JobCloud, JobConditions } from '../../../../core/job/job.ts';
import { jobLimits } from '../../../../core/job/job-limits.ts';
import { JOB_LENGTHS } from '../../../../core/job/job-schema.ts';
import { ChoiceField } from '../../../fields/ChoiceField.tsx';
import { NumberCell } from '../../../fields/NumberCell.tsx';
import { RemoveButton } from '../../../fields/RemoveButton.tsx';
import { RemoveHeading } from '../../../fields/RemoveHeading.tsx';
import { useDesk } from '../../desk-context.ts';
import { useFieldUnit } from '../../../fields/units-context.ts';

/** Visibility and clouds of the day, or that nobody has looked yet. */
export function ConditionsEntry(): VNode {
  const { conditions, setConditions } = useDesk();
  const { label: feet } = useFieldUnit('ft');
  const { unit: mileUnit, label: miles } = useFieldUnit('statute mi');
  const now = conditions.value;
  // Said to be some, while none was typed yet: the job meanwhile holds that nobody has looked.
  const [some, setSome] = useState(false);
  const set = (part: Partial<JobConditions>): void => setConditions({ ...now, ...part });
  const layers = now.clouds ?? [];
  const listed = layers.length > 0 || some;
  const change = (index: number, part: Partial<JobCloud>): void =>
    set({ clouds: (now.clouds ?? []).map((cloud, at) => (at === index ? { ...cloud, ...part } : cloud)) });
  const remove = (index: number): void => {
    const left = layers.filter((_, at) => at !== index);
    // The last one out leaves nobody having looked, not a clear sky.
    set({ clouds: left.length === 0 ? null : left });
  };
  return (
    <div class="conditions-entry">
      <div class="field">
        <span aria-hidden="true">Visibility, {mileUnit}</span>
        <NumberCell
          label={miles('Visibility in statute miles; empty is not looked at')}
          unit="statute mi"
          value={now.visibilityStatuteMiles ?? Number.NaN}
          limits={jobLimits('conditions.visibilityStatuteMiles')}
          placeholder="not known"
          onChange={(visibilityStatuteMiles) => set({ visibilityStatuteMiles })}
          onEmpty={() => set({ visibilityStatuteMiles: null })}
        />
      </div>
      <ChoiceField
        label="Clouds"
        value={listed ? 'layers' : now.clouds === null ? 'unknown' : 'clear'}
        choices={[
          { value: 'unknown', label: 'Not looked at' },
          { value: 'clear', label: 'None' },
          { value: 'layers', label: 'Some' },
        ]}
        onChange={(kind) => {
          setSome(kind === 'layers');
          set({ clouds: kind === 'clear' ? [] : null });
        }}
      />
      {listed && (
        <table class="entry-rows">
          <thead>
            <tr>
              <th scope="col">{feet('Base, ft MSL')}</th>
              <th scope="col">{feet('Top, ft MSL')}</th>
              <th scope="col">Eighths</th>
              <RemoveHeading />
            </tr>
          </thead>
          <tbody>
            {layers.map((cloud, index) => (
              <tr key={index}>
                <td>
                  <NumberCell
                    label={feet(`Cloud ${index + 1}, base in feet`)}
                    unit="ft"
                    value={cloud.baseFeet}
                    limits={jobLimits('conditions.clouds.baseFeet')}
                    onChange={(baseFeet) => change(index, { baseFeet })}
                  />
                </td>
                <td>
                  <NumberCell
                    label={feet(`Cloud ${index + 1}, top in feet; empty is not reported`)}
                    unit="ft"
                    value={cloud.topFeet ?? Number.NaN}
                    limits={jobLimits('conditions.clouds.topFeet')}
                    placeholder="not known"
                    onChange={(topFeet) => change(index, { topFeet })}
                    onEmpty={() => change(index, { topFeet: null })}
                  />
                </td>
                <td>
                  <NumberCell
                    label={`Cloud ${index + 1}, eighths of the sky`}
                    value={cloud.oktas}
                    limits={jobLimits('conditions.clouds.oktas')}
                    onChange={(oktas) => change(index, { oktas: Math.round(oktas) })}
                  />
                </td>
                <td>
                  <RemoveButton label={`Remove cloud ${index + 1}`} onPress={() => remove(index)} />
                </td>
              </tr>
            ))}
            {layers.length < JOB_LENGTHS.clouds && <NewCloud key={layers.length} onNew={(cloud) => set({ clouds: [...layers, cloud] })} />}
          </tbody>
        </table>
      )}
      {some && layers.length === 0 && <p class="small quiet">No cloud counts before its base and its eighths are typed.</p>}
    </div>
  );
}

/** A cloud is added by typing it: it becomes a layer when its base and its eighths are there. */
function NewCloud({ onNew }: { readonly onNew: (cloud: JobCloud) => void }): VNode {
  const { label: feet } = useFieldUnit('ft');
  const [typed, setTyped] = useState({ baseFeet: Number.NaN, topFeet: Number.NaN, oktas: Number.NaN });
  const set = (part: Partial<typeof typed>): void => {
    const next = { ...typed, ...part };
    if (Number.isFinite(next.baseFeet) && Number.isFinite(next.oktas))
      onNew({ baseFeet: next.baseFeet, topFeet: next.topFeet >= next.baseFeet ? next.topFeet : null, oktas: Math.round(next.oktas) });
    else setTyped(next);
  };
  const cell = (field: keyof typeof typed, label: string, placeholder: string): VNode => (
    <td>
      <NumberCell
        label={`New cloud, ${feet(label)}`}
        unit={field === 'oktas' ? '' : 'ft'}
        value={typed[field]}
        limits={jobLimits(`conditions.clouds.${field}`)}
        placeholder={placeholder}
        settled
        onChange={(value) => set({ [field]: value })}
        onEmpty={() => set({ [field]: Number.NaN })}
      />
    </td>
  );
  return (
    <tr class="new-row">
      {cell('baseFeet', 'base in feet', 'not entered')}
      {cell('topFeet', 'top in feet; empty is not reported', 'not known')}
      {cell('oktas', 'eighths of the sky', 'not entered')}
      <td />
    </tr>
  );
}
