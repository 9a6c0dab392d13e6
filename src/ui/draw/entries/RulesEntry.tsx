import type { VNode } from 'preact';
import type { OwnRules } from '../../../core/place/rules-of-the-air.ts';
import { feetFromMetres, metresFromFeet, metresFromStatuteMiles, statuteMilesFromMetres } from '../../../core/units/quantity.ts';
import { NumberCell } from '../../fields/NumberCell.tsx';
import { TextField } from '../../fields/TextField.tsx';
import { useDesk } from '../desk-context.ts';
import { useFieldUnit } from '../../fields/units-context.ts';

const OWN_FIELDS: readonly { readonly key: Exclude<keyof OwnRules, 'source'>; readonly label: string; readonly unit: 'ft' | 'statute mi' | 'min' }[] = [
  { key: 'visibilityMetres', label: 'Visibility, statute miles', unit: 'statute mi' },
  { key: 'belowCloudMetres', label: 'Below cloud, ft', unit: 'ft' },
  { key: 'aboveCloudMetres', label: 'Above cloud, ft', unit: 'ft' },
  { key: 'asideMetres', label: 'Beside cloud, ft', unit: 'ft' },
  { key: 'oxygenMetres', label: 'Oxygen from, ft', unit: 'ft' },
  { key: 'peopleMetres', label: 'Over people, ft', unit: 'ft' },
  { key: 'reserveMinutes', label: 'Fuel reserve, min', unit: 'min' },
];

/** Whose rules of the air the checks hold against: a set with its date and sources, or the pilot's own limits. */
export function RulesEntry(): VNode {
  const { rules } = useDesk();
  const units = { ft: useFieldUnit('ft'), 'statute mi': useFieldUnit('statute mi') };
  const now = rules.rules.value;
  return (
    <div class="rules-entry">
      <label class="field">
        <span>Rules of the air</span>
        <select
          value={rules.id.value}
          onChange={(event) => rules.choose(event.currentTarget.value === 'icao' ? 'icao' : event.currentTarget.value === 'own' ? 'own' : 'us')}
        >
          <option value="us">United States, 14 CFR part 91</option>
          <option value="icao">ICAO annexes, from memory</option>
          <option value="own">None of these: I enter my own</option>
        </select>
      </label>
      <p class="small" data-rules={now.id}>
        {now.name}, {now.date}. {now.cloudSource}. Local rules and licensed practice decide.
      </p>
      {rules.id.value === 'own' && (
        <div class="fields">
          <TextField label="They are called" value={rules.own.value.source} onInput={(source) => rules.choose('own', { ...rules.own.value, source })} />
          {OWN_FIELDS.map(({ key, label, unit }) => {
            const metres = rules.own.value[key];
            const shown =
              metres === null || metres === 0
                ? Number.NaN
                : unit === 'ft'
                  ? feetFromMetres(metres)
                  : unit === 'statute mi'
                    ? statuteMilesFromMetres(metres)
                    : metres;
            const toMetres = (value: number): number => (unit === 'ft' ? metresFromFeet(value) : unit === 'statute mi' ? metresFromStatuteMiles(value) : value);
            return (
              <div class="field" key={key}>
                <span aria-hidden="true">{unit === 'min' ? label : units[unit].label(label)}</span>
                <NumberCell
                  label={`Own limit: ${unit === 'min' ? label : units[unit].label(label)}; empty asks for nothing`}
                  value={Number.isFinite(shown) ? Number(shown.toFixed(2)) : Number.NaN}
                  unit={unit === 'min' ? '' : unit}
                  limits={[0, unit === 'ft' ? 45_000 : unit === 'statute mi' ? 30 : 600]}
                  placeholder="nothing asked"
                  onChange={(value) => rules.choose('own', { ...rules.own.value, [key]: toMetres(value) })}
                  onEmpty={() => rules.choose('own', { ...rules.own.value, [key]: key === 'oxygenMetres' ? null : 0 })}
                />
              </div>
            );
          })}
        </div>
      )}
    </div>
  );
}
