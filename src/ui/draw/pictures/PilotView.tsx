import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import { ChoiceField } from '../../fields/ChoiceField.tsx';
import type { PilotUp } from '../../../app/draw/desk.ts';
import { PilotPicture } from '../../drawing/PilotPicture.tsx';
import { useDesk } from '../desk-context.ts';
import { plannedWind } from '../planned-wind.ts';
import { useUnitText } from '../../fields/units-context.ts';

const MAXIMUM_HEIGHT_PIXELS = 620;

const UPS: readonly { readonly value: PilotUp; readonly label: string }[] = [
  { value: 'north', label: 'North up' },
  { value: 'first-stroke', label: 'First stroke up' },
];

/** The same text as it is flown, seen from above. */
export function PilotView(): VNode | null {
  const units = useUnitText();
  const { planned, player, pilotUp, shipIndex } = useDesk();
  const now = planned.value;
  const wind = useMemo(() => (now === null ? null : plannedWind(now.air, units)), [now, units.speed.unit]);
  if (now === null) return null;
  const { plan, job } = now;
  const shown = Math.min(shipIndex.value, plan.ships.length - 1);
  return (
    <figure class="pilot-view">
      <figcaption>As it is flown, from above</figcaption>
      <div class="row">
        <ChoiceField label="Turned" value={pilotUp.value} choices={UPS} onChange={(up) => (pilotUp.value = up)} />
        {plan.ships.length > 1 && (
          <ChoiceField
            label="Numbers of"
            value={String(shown)}
            choices={plan.ships.map((_, index) => ({ value: String(index), label: job.ships[index]?.name ?? `Ship ${index + 1}` }))}
            onChange={(index) => (shipIndex.value = Number(index))}
          />
        )}
      </div>
      <PilotPicture
        ships={plan.ships}
        shipNames={job.ships.map(({ name }) => name)}
        shipIndex={shown}
        up={pilotUp.value}
        wind={wind}
        atSeconds={player.atSeconds.value}
        maximumHeightPixels={MAXIMUM_HEIGHT_PIXELS}
        description={`${plan.text} from above: mirrored, ${plan.ships.reduce((sum, { toggles }) => sum + toggles, 0)} strokes numbered in flying order`}
      />
    </figure>
  );
}
