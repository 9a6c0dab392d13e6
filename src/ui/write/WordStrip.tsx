import { type ReadonlySignal, useComputed } from '@preact/signals';
import type { VNode } from 'preact';
import type { FlightView } from '../../core/guidance/flight-view.ts';

/** A letter of the text and the strokes that write it, by their places in the flying order. */
export interface StripLetter {
  readonly character: string;
  readonly strokeIndexes: readonly number[];
}

export interface WordStripProps {
  readonly letters: readonly StripLetter[];
  readonly view: ReadonlySignal<FlightView | null>;
  /** Index of the stroke that is flown or comes next. */
  readonly strokeIndex: ReadonlySignal<number>;
}

/** The whole text: letters done are full, the one being written stands in a frame, those to come are thin. */
export function WordStrip({ letters, view, strokeIndex }: WordStripProps): VNode {
  const states = useComputed(() => {
    const done = new Set([...(view.value?.doneStrokeIndexes ?? []), ...(view.value?.skippedStrokeIndexes ?? [])]);
    return letters
      .map(({ strokeIndexes }) => (strokeIndexes.includes(strokeIndex.value) ? 'now' : strokeIndexes.every((index) => done.has(index)) ? 'done' : 'to-come'))
      .join(' ');
  });
  return (
    <span class="write-strip">
      {states.value.split(' ').map((state, index) => (
        <span key={index} data-state={state}>
          {letters[index]?.character}
        </span>
      ))}
    </span>
  );
}
