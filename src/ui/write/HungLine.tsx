import { type ReadonlySignal, useComputed } from '@preact/signals';
import type { VNode } from 'preact';
import { useRef } from 'preact/hooks';
import type { FlightView } from '../../core/guidance/flight-view.ts';
import { type UnitText, unitText } from '../../core/text/unit-text.ts';
import { hungValue, readsUntilWords, standingWords } from './standing-words.ts';

export interface HungLineProps {
  readonly view: ReadonlySignal<FlightView | null>;
  /** As chosen on this tablet; null until they are known. */
  readonly units: ReadonlySignal<UnitText | null>;
}

/** Where the word hangs or will stand, in one line; empty before that is known. */
export function HungLine({ view, units }: HungLineProps): VNode {
  const words = (room: 'whole' | 'small'): string => standingWords(view.value?.standing ?? null, units.value ?? unitText(), room);
  return (
    <p class="write-word" data-figure="hung" data-value={useComputed(() => hungValue(view.value?.standing ?? null))}>
      <span class="write-word-whole">{useComputed(() => words('whole'))}</span>
      <span class="write-word-small">{useComputed(() => words('small'))}</span>
    </p>
  );
}

/** " reads until 12:21 UTC", after the word; as last foretold while the position is lost, since the smoke hangs without it. */
export function ReadsUntil({ view }: Pick<HungLineProps, 'view'>): VNode {
  const told = useRef('');
  return (
    <>
      {useComputed(() => {
        const standing = view.value?.standing ?? null;
        if (standing !== null) told.current = readsUntilWords(standing);
        return told.current;
      })}
    </>
  );
}
