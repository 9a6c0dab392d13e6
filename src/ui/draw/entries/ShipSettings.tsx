import type { VNode } from 'preact';
import { editName, type JobFieldPath, withJobNumber } from '../../../app/draw/job-fields.ts';
import { shipAsFlown } from '../../../core/job/common-limits.ts';
import { formatNumber } from '../../../core/text/number-formats.ts';
import { CalibratedField } from '../../fields/CalibratedField.tsx';
import { useUnitText } from '../../fields/units-context.ts';
import { useDesk } from '../desk-context.ts';
import { BalanceEntry } from './BalanceEntry.tsx';
import { JobNumber } from './JobNumber.tsx';
import { KeptShipChoice } from './KeptShip.tsx';
import { OilEntry } from './OilEntry.tsx';

export interface ShipSettingsProps {
  readonly shipIndex: number;
}

const FLYING: readonly JobFieldPath[] = [
  'ships.trueAirspeedKnots',
  'ships.writingBankDegrees',
  'ships.turningBankDegrees',
  'ships.maximumBankDegrees',
  'ships.rollRateDegreesPerSecond',
];

const CARRIED: readonly JobFieldPath[] = [
  'ships.smokeOilPounds',
  'ships.smokeOilPoundsPerMinute',
  'ships.fuelGallons',
  'ships.fuelGallonsPerHour',
  'ships.fuelReserveMinutes',
  'ships.otherFlyingMinutes',
  'ships.climbFeetPerMinute',
  'ships.bingoFuelGallons',
];

const HAND: readonly JobFieldPath[] = ['ships.valveOnSeconds', 'ships.valveOffSeconds', 'ships.reactionSeconds'];

/** One ship's numbers: how it flies, what it carries, how its smoke answers. */
export function ShipSettings({ shipIndex }: ShipSettingsProps): VNode | null {
  const { editor } = useDesk();
  const units = useUnitText();
  const ship = editor.job.value.ships[shipIndex];
  if (ship === undefined) return null;
  const flown = shipAsFlown(editor.job.value, shipIndex) ?? ship;
  const slower = (['trueAirspeedKnots', 'writingBankDegrees', 'turningBankDegrees'] as const).some((path) => flown[path] !== ship[path]);
  const fields = (paths: readonly JobFieldPath[]): VNode[] => paths.map((path) => <JobNumber key={path} path={path} index={shipIndex} />);
  const rename = (name: string): void =>
    editor.edit(`${ship.name}, name`, (job) => ({ ...job, ships: job.ships.map((each, index) => (index === shipIndex ? { ...each, name } : each)) }));
  return (
    <div class="ship-settings">
      <KeptShipChoice shipIndex={shipIndex} />
      <label class="field ship-name">
        <span>Name</span>
        <input value={ship.name} maxLength={60} onInput={(event) => rename(event.currentTarget.value)} />
      </label>
      <div class="fields">
        {fields(FLYING)}
        <CalibratedField
          job={editor.job.value}
          trueKnots={ship.trueAirspeedKnots}
          onTrue={(knots) =>
            editor.edit(editName(editor.job.value, 'ships.trueAirspeedKnots', shipIndex), (job) =>
              withJobNumber(job, 'ships.trueAirspeedKnots', knots, shipIndex),
            )
          }
        />
      </div>
      {slower && (
        <p class="small" role="note">
          In this formation flown at {units.speed.own(flown.trueAirspeedKnots)} true, {formatNumber(flown.writingBankDegrees)}° of bank writing and{' '}
          {formatNumber(flown.turningBankDegrees)}° between: all keep to what the slowest and the gentlest can.
        </p>
      )}
      <h3>Carried and burnt</h3>
      <div class="fields">{fields(CARRIED)}</div>
      <OilEntry shipIndex={shipIndex} />
      <h3>Valve and hand</h3>
      <div class="fields">{fields(HAND)}</div>
      <BalanceEntry key={`balance-${shipIndex}-${ship.keptId ?? ''}`} shipIndex={shipIndex} />
    </div>
  );
}
