import type { VNode } from 'preact';
import { degreesFromRadians } from '../../core/units/angle.ts';
import { FigureRow } from '../fields/FigureRow.tsx';
import { formatNumber } from '../../core/text/number-formats.ts';
import { useDesk } from './desk-context.ts';
import { useUnitText } from '../fields/units-context.ts';

/** How small the letters could be written, which one sets it, and how much bank and speed are in hand. */
export function LimitFigures(): VNode | null {
  const { planned } = useDesk();
  const units = useUnitText();
  const smallest = planned.value?.smallest;
  if (smallest === undefined) return null;
  return (
    <dl class="figure-rows">
      {smallest === null ? (
        <FigureRow label="Smallest flyable height" note="Straight strokes alone; run-ins and patience set the limit">
          none
        </FigureRow>
      ) : (
        <FigureRow
          label="Smallest flyable height"
          name="smallest-height-metres"
          value={smallest.heightMetres.toFixed(1)}
          note={`${smallest.character} sets it: at this height it needs ${formatNumber(Math.ceil(degreesFromRadians(smallest.neededBankRadians)))}\u00b0 of bank, or ${units.speed.text(units.speed.rounded(smallest.neededAirspeedMetresPerSecond, 1, 'down'))} at most`}
        >
          {units.height.text(units.height.rounded(smallest.heightMetres, 10, 'up'))}
        </FigureRow>
      )}
    </dl>
  );
}
