import './ground-calls.css';
import { type ReadonlySignal, useComputed, useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { GroundCallShown } from '../../app/link/ground-calls.ts';

/**
 * The ground's last calls on the cue screen: words with their age, to be read. STOP stays until it is touched, which
 * takes it from the screen and does nothing else: nothing here reaches the flight.
 */
export function GroundCalls({ calls, lost }: { readonly calls: ReadonlySignal<readonly GroundCallShown[]>; readonly lost: ReadonlySignal<boolean> }): VNode {
  const stopSeen = useSignal<string | null>(null);
  // Joined, so that it is drawn anew when its words change and not at every tick.
  const lines = useComputed(() =>
    calls.value
      .filter(({ id }) => id !== stopSeen.value)
      .map(({ id, call, words, from, ageSeconds }) => [id, call, words, from, ageWords(ageSeconds)].join('\t'))
      .join('\n'),
  );
  return (
    <ul class="write-calls" aria-label="Calls from the ground" aria-live="polite">
      {lost.value && <li class="write-call write-call-lost">LINK LOST: no calls from the ground</li>}
      {(lines.value === '' ? [] : lines.value.split('\n')).map((line) => {
        const [id, call, words, from, age] = line.split('\t');
        const told = (
          <>
            <span class="write-call-ground">GROUND</span> <strong>{words}</strong>{' '}
            <span class="write-call-from">
              {from}, {age}
            </span>
          </>
        );
        return call === 'stop' ? (
          <li key={id}>
            <button type="button" class="write-call" data-call={call} onClick={() => (stopSeen.value = id ?? null)}>
              {told} <span class="write-call-seen">touch when seen</span>
            </button>
          </li>
        ) : (
          <li key={id} class="write-call" data-call={call}>
            {told}
          </li>
        );
      })}
    </ul>
  );
}

/** In steps of ten seconds, so that the words hold still. */
function ageWords(ageSeconds: number | null): string {
  if (ageSeconds === null) return 'age unknown';
  if (ageSeconds < 10) return 'now';
  return ageSeconds < 90 ? `${Math.floor(ageSeconds / 10) * 10} s ago` : `${Math.floor(ageSeconds / 60)} min ago`;
}
