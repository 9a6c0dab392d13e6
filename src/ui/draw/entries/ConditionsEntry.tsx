import type { VNode } from 'preact';
import type { JobCloud, JobConditions } from '../../../core/job/job.ts';
import { jobLimits } from '../../../core/job/job-limits.ts';
import { JOB_LENGTHS } from '../../../core/job/job-schema.ts';
import { ChoiceField } from '../../fields/ChoiceField.tsx';
import { NumberCell } from '../../fields/NumberCell.tsx';
import { RemoveButton } from '../../fields/RemoveButton.tsx';
import { useDesk } from '../desk-context.ts';

const NEW_CLOUD: JobCloud = { baseFeet: 6000, topFeet: null, oktas: 3 };

/** Visibility and clouds of the day, or that nobody has looked yet. */
export function ConditionsEntry(): VNode {
  const { conditions, setConditions } = useDesk();
  const now = conditions.value;
  const set = (part: Partial<JobConditions>): void => setConditions({ ...now, ...part });
  const change = (index: number, part: Partial<JobCloud>): void =>
    set({ clouds: (now.clouds ?? []).map((cloud, at) => (at === index ? { ...cloud, ...part } : cloud)) });
  return (
    <div class="conditions-entry">
      <div class="field">
        <span aria-hidden="true">Visibility, statute miles</span>
        <NumberCell
          label="Visibility in statute miles; empty is not looked at"
          value={now.visibilityStatuteMiles ?? Number.NaN}
          limits={jobLimits('conditions.visibilityStatuteMiles')}
          placeholder="not known"
          onChange={(visibilityStatuteMiles) => set({ visibilityStatuteMiles })}
          onEmpty={() => set({ visibilityStatuteMiles: null })}
        />
      </div>
      <ChoiceField
        label="Clouds"
        value={now.clouds === null ? 'unknown' : now.clouds.length === 0 ? 'clear' : 'layers'}
        choices={[
          { value: 'unknown', label: 'Not looked at' },
          { value: 'clear', label: 'None' },
          { value: 'layers', label: 'Some' },
        ]}
        onChange={(kind) => set({ clouds: kind === 'unknown' ? null : kind === 'clear' ? [] : [NEW_CLOUD] })}
      />
      {now.clouds !== null && now.clouds.length > 0 && (
        <table class="entry-rows">
          <thead>
            <tr>
              <th scope="col">Base, ft MSL</th>
              <th scope="col">Top, ft MSL</th>
              <th scope="col">Eighths</th>
              <th scope="col">
                <span class="visually-hidden">Remove</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {now.clouds.map((cloud, index) => (
              <tr key={index}>
                <td>
                  <NumberCell
                    label={`Cloud ${index + 1}, base in feet`}
                    value={cloud.baseFeet}
                    limits={jobLimits('conditions.clouds.baseFeet')}
                    onChange={(baseFeet) => change(index, { baseFeet })}
                  />
                </td>
                <td>
                  <NumberCell
                    label={`Cloud ${index + 1}, top in feet; empty is not reported`}
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
                  <RemoveButton label={`Remove cloud ${index + 1}`} onPress={() => set({ clouds: (now.clouds ?? []).filter((_, at) => at !== index) })} />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {now.clouds !== null && now.clouds.length > 0 && now.clouds.length < JOB_LENGTHS.clouds && (
        <button type="button" onClick={() => set({ clouds: [...(now.clouds ?? []), NEW_CLOUD] })}>
          Add a cloud layer
        </button>
      )}
    </div>
  );
}
