import './ground-calls.css';
import { type ReadonlySignal, useComputed } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';

export interface NearShipsProps {
  readonly ships: ReadonlySignal<readonly string[]>;
  /** Says that another ship is close. */
  readonly onClose: () => void;
}

/** Other ships that are near or off their timetable, as they say over the link: cautions to look out by, nothing to steer by. */
export function NearShips({ ships, onClose }: NearShipsProps): VNode {
  const lines = useComputed(() => ships.value.join('\n'));
  const close = useComputed(() => ships.value.length > 0);
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
