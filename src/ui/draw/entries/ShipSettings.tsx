import type { VNode } from 'preact';
import type { JobShip } from '../../../core/job/job.ts';
import { JOB_LIMITS } from '../../../core/job/job-limits.ts';
import { NumberField } from '../../fields/NumberField.tsx';
import { NumberCell } from '../../fields/NumberCell.tsx';
import { CalibratedField } from '../../fields/CalibratedField.tsx';
import { useDesk } from '../desk-context.ts';

export interface ShipSettingsProps {
  readonly shipIndex: number;
}

interface ShipNumber {
  readonly field: Exclude<keyof typeof JOB_LIMITS.ship, 'otherFlyingMinutes'>;
  readonly label: string;
  readonly unit: string;
  readonly step: number;
  readonly outside?: string;
}

const BANK_OUTSIDE = 'Level wings never turn, and no aircraft holds its height at 90\u00b0.';

const FLYING: readonly ShipNumber[] = [
  { field: 'trueAirspeedKnots', label: 'True airspeed', unit: 'kt', step: 5 },
  { field: 'writingBankDegrees', label: 'Bank while writing', unit: '\u00b0', step: 5, outside: BANK_OUTSIDE },
  { field: 'turningBankDegrees', label: 'Bank between strokes', unit: '\u00b0', step: 5, outside: BANK_OUTSIDE },
  { field: 'maximumBankDegrees', label: 'Bank at most, to correct', unit: '\u00b0', step: 5, outside: BANK_OUTSIDE },
  { field: 'rollRateDegreesPerSecond', label: 'Roll', unit: '\u00b0/s', step: 5 },
];

const CARRIED: readonly ShipNumber[] = [
  { field: 'smokeOilPounds', label: 'Smoke oil carried', unit: 'lb', step: 10 },
  { field: 'smokeOilPoundsPerMinute', label: 'Smoke oil burnt', unit: 'lb/min', step: 1 },
  { field: 'fuelGallons', label: 'Fuel carried', unit: 'gal', step: 1 },
  { field: 'fuelGallonsPerHour', label: 'Fuel burnt', unit: 'gal/h', step: 1 },
  { field: 'fuelReserveMinutes', label: 'Fuel reserve', unit: 'min', step: 5 },
];

const HAND: readonly ShipNumber[] = [
  { field: 'valveOnSeconds', label: 'Smoke appears after', unit: 's', step: 0.1 },
  { field: 'valveOffSeconds', label: 'Smoke ends after', unit: 's', step: 0.1 },
  { field: 'reactionSeconds', label: 'Hand after the cue', unit: 's', step: 0.1 },
];

/** One ship's numbers: how it flies, what it carries, how its smoke answers. */
export function ShipSettings({ shipIndex }: ShipSettingsProps): VNode | null {
  const { editor } = useDesk();
  const ship = editor.job.value.ships[shipIndex];
  if (ship === undefined) return null;
  const edit = (name: string, part: Partial<JobShip>): void =>
    editor.edit(`${ship.name}, ${name}`, (job) => ({
      ...job,
      ships: job.ships.map((each, index) => (index === shipIndex ? withSoundBanks({ ...each, ...part }) : each)),
    }));
  const fields = (rows: readonly ShipNumber[]): VNode[] =>
    rows.map(({ field, label, unit, step, outside }) => (
      <NumberField
        key={field}
        label={label}
        unit={unit}
        value={ship[field]}
        limits={JOB_LIMITS.ship[field]}
        step={step}
        onChange={(value) => edit(label.toLowerCase(), { [field]: value })}
        {...(outside === undefined ? {} : { outside })}
      />
    ));
  return (
    <div class="ship-settings">
      <label class="field ship-name">
        <span>Name</span>
        <input value={ship.name} maxLength={60} onInput={(event) => edit('name', { name: event.currentTarget.value })} />
      </label>
      <div class="fields">
        {fields(FLYING)}
        <CalibratedField
          job={editor.job.value}
          trueKnots={ship.trueAirspeedKnots}
          onTrue={(trueAirspeedKnots) => edit('true airspeed', { trueAirspeedKnots })}
        />
      </div>
      <h3>Carried and burnt</h3>
      <div class="fields">
        {fields(CARRIED)}
        <div class="field">
          <span aria-hidden="true">Climb, transit and return, min</span>
          <NumberCell
            label="Climb, transit and return, minutes; empty is not said"
            value={ship.otherFlyingMinutes ?? Number.NaN}
            limits={JOB_LIMITS.ship.otherFlyingMinutes}
            placeholder="not said"
            onChange={(otherFlyingMinutes) => edit('climb and transit', { otherFlyingMinutes })}
            onEmpty={() => edit('climb and transit', { otherFlyingMinutes: null })}
          />
        </div>
      </div>
      <h3>Valve and hand</h3>
      <div class="fields">{fields(HAND)}</div>
    </div>
  );
}

/** The bank for corrections is never less than the banks that are flown anyway. */
function withSoundBanks(ship: JobShip): JobShip {
  const flown = Math.max(ship.writingBankDegrees, ship.turningBankDegrees);
  return ship.maximumBankDegrees >= flown ? ship : { ...ship, maximumBankDegrees: flown };
}
