import type { VNode } from 'preact';
import { counted } from '../../core/text/counted.ts';
import { useMemo } from 'preact/hooks';
import { isEntered } from '../../core/job/not-entered.ts';
import { idleShipsWords } from '../../core/plan/idle-ships.ts';
import { planGap } from '../../core/plan/plan.ts';
import { FigureRow } from '../fields/FigureRow.tsx';
import { formatDuration, formatNumber } from '../../core/text/number-formats.ts';
import { readsText, readsValue } from '../words/reads-text.ts';
import { useDesk } from './desk-context.ts';
import { ShipTankFigures } from './ShipTankFigures.tsx';
import { useUnitText } from '../fields/units-context.ts';

const TANK_PATHS = ['ships.smokeOilPounds', 'ships.smokeOilPoundsPerMinute', 'ships.fuelGallons', 'ships.fuelGallonsPerHour', 'ships.fuelReserveMinutes'];

/** What the plan costs: time, way, smoke, and how near it is to the best there can be. */
export function PlanFigures(): VNode | null {
  const { planned, sky } = useDesk();
  const units = useUnitText();
  const now = planned.value;
  const sums = useMemo(() => {
    const ships = now?.plan.ships ?? [];
    const sum = (of: (ship: (typeof ships)[number]) => number): number => ships.reduce((total, ship) => total + of(ship), 0);
    return { metres: sum((ship) => ship.distanceMetres), smokeSeconds: sum((ship) => ship.smokeSeconds), toggles: sum((ship) => ship.toggles) };
  }, [now]);
  if (now === null) return null;
  const { plan, job } = now;
  const window = sky.value?.window;
  return (
    <section class="plan-figures" aria-label="What it takes">
      <h2>What it takes</h2>
      {idleShipsWords(job, plan) !== '' && <p class="notice caution small">{idleShipsWords(job, plan)}</p>}
      <dl class="figure-rows">
        <FigureRow label="First smoke to last" name="duration-seconds" value={plan.durationSeconds.toFixed(1)} note={boundText(planGap(plan))}>
          {formatDuration(plan.durationSeconds)}
        </FigureRow>
        <FigureRow label="Reads as a whole" name="reads" value={window === undefined ? '' : readsValue(window)} note="after the first smoke, by computation">
          {window === undefined ? '\u2013' : readsText(window)}
        </FigureRow>
        <FigureRow
          label={plan.ships.length > 1 ? 'Way through the air, all ships' : 'Way through the air'}
          name="distance-metres"
          value={sums.metres.toFixed(0)}
          note={units.distance.unit === units.crowdDistance.unit ? undefined : units.distance.text(sums.metres, 1)}
        >
          {units.crowdDistance.text(sums.metres, 1)}
        </FigureRow>
        <FigureRow
          label="Smoke on"
          name="smoke-seconds"
          value={sums.smokeSeconds.toFixed(1)}
          note={`${formatNumber((100 * sums.smokeSeconds) / Math.max(1, sums.metres / plan.trueAirspeedMetresPerSecond))} % of the way`}
        >
          {formatDuration(sums.smokeSeconds)}
        </FigureRow>
        <FigureRow label="Smoke switched on" name="toggles" value={sums.toggles}>
          {counted(sums.toggles, 'time')}
        </FigureRow>
        {plan.ships.map((ship) => {
          const data = job.ships[ship.shipIndex];
          const known = TANK_PATHS.every((path) => isEntered(job, path));
          return data === undefined || !known ? null : <ShipTankFigures key={ship.shipIndex} ship={ship} data={data} named={plan.ships.length > 1} />;
        })}
      </dl>
    </section>
  );
}

/** How near the plan is to the proven bound, in words that never promise more than was proven. */
function boundText(gap: number): string {
  const percent = 100 * gap;
  if (percent < 0.005) return 'the best these options allow, proven';
  return `within ${formatNumber(percent, percent < 1 ? 2 : 1)} % of the best possible`;
}
