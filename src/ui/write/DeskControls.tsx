import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useState } from 'preact/hooks';
import { keepPace } from '../../app/flight/rehearsal-pace.ts';
import type { FlightHere } from '../../app/flight/flight-here.ts';

const SPEEDS = [1, 2, 5, 10, 20] as const;

export interface DeskControlsProps {
  readonly flight: FlightHere;
  readonly speed: NonNullable<FlightHere['speed']>;
}

/** What a flight at the desk has beside the cues: how fast it goes, its end, and a stick for whoever flies by touch. */
export function DeskControls({ flight, speed }: DeskControlsProps): VNode {
  const chosen = useSignal(speed.read());
  // It may have been begun at another.
  const [paces] = useState(() => [...new Set<number>([...SPEEDS, chosen.peek()])].sort((one, other) => one - other));
  const { hands } = flight;
  const lean = (side: -1 | 1) => ({
    onPointerDown: () => hands?.leanTo(side),
    onPointerUp: () => hands?.leanTo(0),
    onPointerLeave: () => hands?.leanTo(0),
    onPointerCancel: () => hands?.leanTo(0),
  });
  return (
    <div class="write-desk" role="group" aria-label="At the desk">
      <label>
        <span>Pace</span>
        <select
          value={String(chosen.value)}
          onChange={(event) => {
            chosen.value = Number(event.currentTarget.value);
            speed.write(chosen.value);
            keepPace(chosen.value);
          }}
        >
          {paces.map((one) => (
            <option key={one} value={String(one)}>
              {one}×
            </option>
          ))}
        </select>
      </label>
      {hands !== null && (
        <span class="write-stick">
          <button type="button" {...lean(-1)} aria-label="Bank left">
            ◀ ←
          </button>
          <button type="button" onClick={() => hands.switchSmoke()}>
            Smoke (space)
          </button>
          <button type="button" {...lean(1)} aria-label="Bank right">
            → ▶
          </button>
        </span>
      )}
    </div>
  );
}
