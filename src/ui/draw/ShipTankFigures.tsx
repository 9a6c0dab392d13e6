import type { VNode } from 'preact';
import type { JobShip } from '../../core/job/job.ts';
import { shipBudget } from '../../core/plan/budget.ts';
import type { ShipPlan } from '../../core/plan/plan.ts';
import { FigureRow } from '../fields/FigureRow.tsx';
import { formatDuration } from '../../core/text/number-formats.ts';
import { tanksOfShip } from '../../core/plan/ship-tanks.ts';
import { useUnitText } from '../fields/units-context.ts';

export interface ShipTankFiguresProps {
  readonly ship: ShipPlan;
  readonly data: JobShip;
  /** Whether the ship's name is needed to tell it from others. */
  readonly named: boolean;
}

/** Oil and fuel of one ship against its tanks; what does not suffice says so beside the number. */
export function ShipTankFigures({ ship, data, named }: ShipTankFiguresProps): VNode {
  const units = useUnitText();
  const budget = shipBudget(ship, tanksOfShip(data));
  const whole = budget.wholeFlightCounted;
  const fuelLabel = whole ? 'fuel, whole flight' : 'fuel while writing';
  const reserve = units.volume.text(budget.fuelReserveLitres, 1);
  const left = budget.fuelLeftLitres;
  return (
    <>
      <FigureRow
        label={named ? `${data.name}: smoke oil` : 'Smoke oil'}
        name="oil-kilograms"
        value={budget.oilNeededKilograms.toFixed(2)}
        note={
          budget.oilSuffices ? (
            `of ${units.mass.own(data.smokeOilPounds)} carried`
          ) : data.smokeOilPounds === 0 ? (
            <strong class="lacks">The tank is entered as empty.</strong>
          ) : (
            <strong class="lacks">
              Only {units.mass.own(data.smokeOilPounds)} carried: gone after {formatDuration(budget.oilGoneSeconds ?? 0)}.
            </strong>
          )
        }
      >
        {units.mass.text(budget.oilNeededKilograms)}
      </FigureRow>
      <FigureRow
        label={named ? `${data.name}: ${fuelLabel}` : fuelLabel.replace(/^f/, 'F')}
        name="fuel-litres"
        value={budget.fuelNeededLitres.toFixed(2)}
        note={
          budget.fuelSuffices ? (
            `leaves ${units.volume.number(left, 1)} of ${units.volume.own(data.fuelGallons, 1)}; reserve ${reserve}${whole || ship.shipIndex > 0 ? '' : '. Climb, transit and return not counted.'}`
          ) : (
            <strong class="lacks">
              {left < 0 ? `${units.volume.text(-left, 1)} more than carried` : `Leaves ${units.volume.text(left, 1)}, under the reserve of ${reserve}`}
              {whole ? '.' : ', before climb, transit and return.'}
            </strong>
          )
        }
      >
        {units.volume.text(budget.fuelNeededLitres, 1)}
      </FigureRow>
    </>
  );
}
