import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import { FRESH_SMOKE_SECONDS, smokeCrossings } from '../../core/plan/smoke-crossing.ts';
import { formatDuration, formatNumber } from '../../core/text/number-formats.ts';
import { useDesk } from './desk-context.ts';

const SHOWN = 6;

/** Where a ship flies through smoke that still hides what is behind it. */
export function SmokeCrossings(): VNode | null {
  const { settled } = useDesk();
  const now = settled.value;
  const crossings = useMemo(() => (now === null ? [] : smokeCrossings(now.plan)), [now?.plan]);
  if (now === null || crossings.length === 0) return null;
  const name = (shipIndex: number): string => now.job.ships[shipIndex]?.name ?? `Ship ${shipIndex + 1}`;
  return (
    <div class="notice caution" data-check="smoke-crossings">
      <p>
        <strong>
          Caution: {crossings.length} {crossings.length === 1 ? 'pass' : 'passes'} through smoke younger than {FRESH_SMOKE_SECONDS} s.
        </strong>{' '}
        It hides the horizon and other ships.
      </p>
      <ul>
        {crossings.slice(0, SHOWN).map(({ shipIndex, smokeOfShipIndex, atSeconds, ageSeconds }) => (
          <li key={`${shipIndex}/${atSeconds}`}>
            {formatDuration(atSeconds)}: {name(shipIndex)} through {shipIndex === smokeOfShipIndex ? 'its own smoke' : `the smoke of ${name(smokeOfShipIndex)}`}
            , {formatNumber(ageSeconds)} s old
          </li>
        ))}
      </ul>
      {crossings.length > SHOWN && <p>and {crossings.length - SHOWN} more</p>}
    </div>
  );
}
