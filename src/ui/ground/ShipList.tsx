import type { ReadonlySignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { sameShipWords } from '../../app/link/same-ship.ts';
import { jobDigest } from '../../app/link/job-digest.ts';
import { useApplication } from '../application-context.ts';
import { useGround } from './ground-context.ts';
import type { GroundSky } from './ground-sky.ts';
import { doingWords, freshnessWords } from './ground-words.ts';

/** Every ship heard of, what it does, and how old that is. */
export function ShipList({ sky }: { readonly sky: ReadonlySignal<GroundSky> }): VNode | null {
  const { link } = useApplication();
  const { job } = useGround();
  const [digest, setDigest] = useState<string | null>(null);
  useEffect(() => {
    jobDigest(job).then(setDigest, () => {});
  }, [job]);
  const ships = link.room.value?.ships ?? [];
  const { marks } = sky.value;
  if (marks.length === 0) return null;
  return (
    <ul class="ground-ships">
      {marks.map((mark) => {
        const ship = ships.find(({ device }) => device === mark.device);
        const state = ship?.last?.state;
        const other = ship?.jobDigest != null && digest !== null && ship.jobDigest !== digest;
        const twin = ship?.shipIndex != null && sameShipWords(ships, ship.shipIndex, ship.device).length > 0;
        const old = mark.fresh.kind !== 'live' && mark.fresh.kind !== 'ageing';
        return (
          <li key={mark.device} data-ship={mark.device} data-fresh={mark.fresh.kind} data-ship-index={mark.shipIndex ?? ''} data-flown={ship?.laid.length ?? 0}>
            <strong>{mark.name}</strong>
            <span class="ground-ship-fresh">{freshnessWords(mark.fresh)}</span>
            {state !== undefined && !old && <span>{doingWords(state, ship?.knockedOffMilliseconds != null)}</span>}
            {ship?.flightKind === 'rehearsal' && <span class="ground-ship-kind">REHEARSAL</span>}
            {ship?.flightKind === 'replay' && <span class="ground-ship-kind">RECORDING</span>}
            {twin && <span class="ground-ship-kind">two devices fly as this ship: {ship?.device}</span>}
            {other && <span class="ground-ship-kind">flies another version of this job</span>}
          </li>
        );
      })}
    </ul>
  );
}
