import { type ReadonlySignal, useComputed } from '@preact/signals';
import type { VNode } from 'preact';
import { CautionMark } from './CautionMark.tsx';

/** Faults that the pilot should know of, each as long as its cause lasts. */
export function Cautions({ cautions }: { readonly cautions: ReadonlySignal<readonly string[]> }): VNode {
  // Joined, so that the list is drawn anew when its words change and not at every tick.
  const joined = useComputed(() => cautions.value.join('\n'));
  const lines = joined.value === '' ? [] : joined.value.split('\n');
  return (
    <ul class="write-cautions" aria-label="Cautions">
      {lines.map((line) => (
        <li key={line} class="write-caution">
          <CautionMark />
          {line}
        </li>
      ))}
    </ul>
  );
}
