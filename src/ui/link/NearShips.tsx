import './ground-calls.css';
import { type ReadonlySignal, useComputed } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import type { ShipCaution } from '../../app/link/near-ships.ts';

export interface NearShipsProps {
  readonly ships: ReadonlySignal<readonly ShipCaution[]>;
  /** Says that another ship is close. */
  readonly onClose: () => void;
}

/** Other ships that are near, off their timetable or by another, as they say over the link: cautions to look out by, nothing to steer by. */
export function NearShips({ ships, onClose }: NearShipsProps): VNode {
  const lines = useComputed(() => ships.value.map(({ words }) => words).join('\n'));
  const close = useComputed(() => ships.value.some(({ isClose }) => isClose));
  useEffect(() => {
    if (close.value) onClose();
  }, [close.value]);
  return (
    <ul class="write-calls write-near" aria-label="Other ships" aria-live="assertive">
      {(lines.value === '' ? [] : lines.value.split('\n')).map((line) => (
        <li key={line} class="write-call" data-near>
          <strong>{line}</strong>
        </li>
      ))}
    </ul>
  );
}
