import type { VNode } from 'preact';
import type { JobShip } from '../../core/job/job.ts';
import { shipBudget } from '../../core/plan/budget.ts';
import type { ShipPlan } from '../../core/plan/plan.ts';
import { gallonsFromLitres, poundsFromKilograms } from '../../core/units/quantity.ts';
import { FigureRow } from '../fields/FigureRow.tsx';
import { formatDuration, formatNumber } from '../../core/text/number-formats.ts';
import { tanksOfShip } from '../../core/checks/ship-tanks.ts';

export interface ShipTankFiguresProps {
  readonly ship: ShipPlan;
  readonly data: JobShip;
  /** Whether the ship's name is needed to tell it from others. */
  readonly named: boolean;
}

/** Oil and fuel of one ship against its tanks; what does not suffice says so beside the number. */
export function ShipTankFigures({ ship, data, named }: ShipTankFiguresProps): VNode {
  const budget = shipBudget(ship, tanksOfShip(data));
  const oil = formatNumber(poundsFromKilograms(budget.oilNeededKilograms));
  const fuel = formatNumber(gallonsFromLitres(budget.fuelNeededLitres), 1);
  const left = gallonsFromLitres(budget.fuelLeftLitres);
  const whole = budget.wholeFlightCounted;
  const fuelLabel = whole ? 'fuel, whole flight' : 'fuel while writing';
  const reserve = formatNumber(gallonsFromLitres(budget.fuelReserveLitres), 1);
  return (
    <>
      <FigureRow
        label={named ? `${data.name}: smoke oil` : 'Smoke oil'}
        name="oil-kilograms"
        value={budget.oilNeededKilograms.toFixed(2)}
        note={
          budget.oilSuffices ? (
            `of ${formatNumber(data.smokeOilPounds)} lb carried`
          ) : data.smokeOilPounds === 0 ? (
            <strong class="lacks">The tank is entered as empty.</strong>
          ) : (
            <strong class="lacks">
              Only {formatNumber(data.smokeOilPounds)} lb carried: gone after {formatDuration(budget.oilGoneSeconds ?? 0)}.
            </strong>
          )
        }
      >
        {oil} lb
      </FigureRow>
      <FigureRow
        label={named ? `${data.name}: ${fuelLabel}` : fuelLabel.replace(/^f/, 'F')}
        name="fuel-litres"
        value={budget.fuelNeededLitres.toFixed(2)}
        note={
          budget.fuelSuffices ? (
            `leaves ${formatNumber(left, 1)} gal of ${formatNumber(data.fuelGallons, 1)}; reserve ${reserve} gal${whole || ship.shipIndex > 0 ? '' : '. Climb, transit and return not counted.'}`
          ) : (
            <strong class="lacks">
              {left < 0 ? `${formatNumber(-left, 1)} gal more than carried` : `Leaves ${formatNumber(left, 1)} gal, under the reserve of ${reserve} gal`}
              {whole ? '.' : ', before climb, transit and return.'}
            </strong>
          )
        }
      >
        {fuel} gal
      </FigureRow>
    </>
  );
}
