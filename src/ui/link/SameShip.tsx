import './ground-calls.css';
import { type ReadonlySignal, useComputed } from '@preact/signals';
import type { VNode } from 'preact';

/** That another device flies as this ship; which of them is right is for the two pilots to settle. */
export function SameShip({ words }: { readonly words: ReadonlySignal<readonly string[]> }): VNode | null {
  // The words are made anew each second; only other ones are drawn.
  const lines = useComputed(() => words.value.join('\n'));
  if (lines.value === '') return null;
  return (
    <ul class="write-calls" aria-label="Same ship twice" aria-live="polite" data-same-ship>
      {lines.value.split('\n').map((line) => (
        <li key={line} class="write-call">
          <strong>{line}</strong>
        </li>
      ))}
    </ul>
  );
}
