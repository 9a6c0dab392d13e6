import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { positionHere } from '../../app/draw/position-here.ts';
import { lookToAir } from '../../core/sky/look-plan.ts';
import { shownTurnRadians } from '../../core/sky/perspective.ts';
import { formatNumber } from '../../core/text/number-formats.ts';
import { degreesFromRadians } from '../../core/units/angle.ts';
import { type LookProps, useGround } from './ground-context.ts';

/** Less nobody sees. */
const LEVEL_DEGREES = 3;

/** Where the observer stands: everything on this screen is told from there. The word is hung for the crowd. */
export function StandingPlace({ plan: { plan, air, readSeconds }, sinceDatumSeconds }: LookProps): VNode {
  const { places, standsAt, stand, eye } = useGround().observerPlace;
  const asking = useSignal(false);
  const fault = useSignal<string | null>(null);
  const at = standsAt.value;
  const here = async (): Promise<void> => {
    asking.value = true;
    const found = await positionHere();
    asking.value = false;
    fault.value = found === null ? 'This device gives no position: allow it, or choose a place.' : stand({ kind: 'here', ...found });
  };
  // It is hung to stand level at its read time: before that it leans for everybody.
  const toCome = sinceDatumSeconds < readSeconds;
  const look = lookToAir(plan.frame.middle, Math.max(readSeconds, sinceDatumSeconds), { ...air, eye: eye.value });
  const turn = degreesFromRadians(shownTurnRadians(look.azimuthRadians, plan.frame.facingRadians, look.elevationRadians));
  return (
    <div class="ground-standing" data-stands={at.kind}>
      <label>
        <span>You stand</span>{' '}
        <select
          value={at.kind === 'place' ? String(at.index) : at.kind}
          onChange={(event) => {
            const { value } = event.currentTarget;
            if (value === 'here') void here();
            else fault.value = stand(value === 'crowd' ? { kind: 'crowd' } : { kind: 'place', index: Number(value) });
          }}
        >
          <option value="crowd">{places.length > 1 ? 'in the crowd\u2019s middle' : 'with the crowd'}</option>
          {places.length > 1 &&
            places.map((name, index) => (
              <option key={index} value={String(index)}>
                {name}
              </option>
            ))}
          <option value="here">at this device</option>
        </select>
      </label>
      {at.kind === 'here' && (
        <button type="button" class="plain" disabled={asking.value} onClick={() => void here()}>
          I have moved
        </button>
      )}
      {asking.value && (
        <p class="quiet small" role="status">
          Asking this device
        </p>
      )}
      {fault.value !== null && <p class="fault">{fault.value}</p>}
      {at.kind !== 'crowd' && Math.abs(turn) >= LEVEL_DEGREES && (
        <p class="small">
          The word is hung for the crowd: from here it {toCome ? 'will stand' : 'stands'} turned by {formatNumber(Math.abs(turn))}°
          {Math.abs(turn) > 90 ? ', upside down' : ''}
          {toCome ? ' at its read time' : ''}.
        </p>
      )}
    </div>
  );
}
