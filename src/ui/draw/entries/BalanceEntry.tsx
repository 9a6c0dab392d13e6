import type { VNode } from 'preact';
import { useState } from 'preact/hooks';
import { loadings } from '../../../core/checks/weight-balance.ts';
import type { JobShip } from '../../../core/job/job.ts';
import { jobLimits } from '../../../core/job/job-limits.ts';
import { formatNumber } from '../../../core/text/number-formats.ts';
import { NumberCell } from '../../fields/NumberCell.tsx';
import { useDesk } from '../desk-context.ts';
import { useFieldUnit, useUnitText } from '../../fields/units-context.ts';

type Balance = NonNullable<JobShip['balance']>;

const ROWS: readonly { readonly key: keyof Balance; readonly label: string; readonly unit: string }[] = [
  { key: 'emptyPounds', label: 'Empty, lb', unit: 'lb' },
  { key: 'emptyArmInches', label: 'its arm, in', unit: '' },
  { key: 'pilotPounds', label: 'Pilot and all on board, lb', unit: 'lb' },
  { key: 'pilotArmInches', label: 'their arm, in', unit: '' },
  { key: 'fuelPoundsPerGallon', label: 'Fuel, lb/gal', unit: 'lb/gal' },
  { key: 'fuelArmInches', label: 'Fuel\u2019s arm, in', unit: '' },
  { key: 'oilArmInches', label: 'Smoke tank\u2019s arm, in', unit: '' },
  { key: 'forwardLimitInches', label: 'Foremost, in', unit: '' },
  { key: 'aftLimitInches', label: 'Aftmost, in', unit: '' },
  { key: 'greatestPounds', label: 'Heaviest, lb', unit: 'lb' },
];

/** A ship's own weights and arms, from its papers: nothing is reckoned before all of them are typed. */
export function BalanceEntry({ shipIndex }: { readonly shipIndex: number }): VNode | null {
  const { editor } = useDesk();
  const units = useUnitText();
  const { label: pounds } = useFieldUnit('lb');
  const { label: density } = useFieldUnit('lb/gal');
  const inUnits = (label: string): string => pounds(density(label));
  const ship = editor.job.value.ships[shipIndex];
  const [typed, setTyped] = useState<Partial<Balance>>(ship?.balance ?? {});
  if (ship === undefined) return null;
  const change = (key: keyof Balance, value: number | null): void => {
    const { [key]: _, ...rest } = typed;
    const next: Partial<Balance> = value === null ? rest : { ...rest, [key]: value };
    setTyped(next);
    const whole = ROWS.every((row) => next[row.key] !== undefined);
    editor.edit(`${ship.name}, weight and balance`, (job) => ({
      ...job,
      ships: job.ships.map((each, index) => (index === shipIndex ? { ...each, balance: whole ? (next as Balance) : null } : each)),
    }));
  };
  const missing = ROWS.filter(({ key }) => typed[key] === undefined).length;
  const found = loadings(ship);
  return (
    <div class="balance-entry">
      <h3>Weight and balance, from the ship{'\u2019'}s papers</h3>
      <div class="fields">
        {ROWS.map(({ key, label, unit }) => (
          <div class="field" key={key}>
            <span aria-hidden="true">{inUnits(label)}</span>
            <NumberCell
              label={`Balance: ${inUnits(label)}`}
              value={typed[key] ?? Number.NaN}
              unit={unit}
              limits={jobLimits(`ships.balance.${key}`)}
              placeholder="not entered"
              onChange={(value) => change(key, value)}
              onEmpty={() => change(key, null)}
            />
          </div>
        ))}
      </div>
      {found === null ? (
        <p class="small quiet">{missing === ROWS.length ? 'Not entered: nothing is reckoned.' : `${missing} more to enter before anything is reckoned.`}</p>
      ) : (
        <table class="figures" data-figure="balance">
          <tbody>
            {found.map(({ tanks, pounds: weight, armInches, status }) => (
              <tr key={tanks} data-status={status}>
                <th scope="row">{tanks}</th>
                <td class="number">{units.mass.own(weight)}</td>
                <td class="number">{formatNumber(armInches, 1)} in</td>
                <td>{status === 'within' ? 'within' : <strong>{status}</strong>}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <p class="small quiet">
        The pilot{'\u2019'}s own figures, added up. The aircraft{'\u2019'}s papers and the pilot in command decide.
      </p>
    </div>
  );
}
