import { type ReadonlySignal, useComputed } from '@preact/signals';
import type { VNode } from 'preact';
import type { FlightView } from '../../core/guidance/flight-view.ts';
import { hungValue, readsUntilWords, standingWords } from './standing-words.ts';

export interface HungLineProps {
  readonly view: ReadonlySignal<FlightView | null>;
}

/** Where the word hangs or will stand, in one line; empty before that is known. */
export function HungLine({ view }: HungLineProps): VNode {
  return (
    <p class="write-word" data-figure="hung" data-value={useComputed(() => hungValue(view.value?.standing ?? null))}>
      <span class="write-word-whole">{useComputed(() => standingWords(view.value?.standing ?? null))}</span>
      <span class="write-word-small">{useComputed(() => standingWords(view.value?.standing ?? null, 'small'))}</span>
    </p>
  );
}

/** " reads until 12:21 UTC", after the word. */
export function ReadsUntil({ view }: HungLineProps): VNode {
  return <>{useComputed(() => readsUntilWords(view.value?.standing ?? null))}</>;
}
