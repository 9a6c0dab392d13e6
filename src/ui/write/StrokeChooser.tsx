import { useComputed, useSignal, useSignalEffect } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect, useMemo } from 'preact/hooks';
import type { FlightHere } from '../../app/flight/flight-here.ts';
import { type StrokeChoice, strokeChoices } from '../../app/flight/stroke-choices.ts';
import { ChooserPicture } from './ChooserPicture.tsx';
import { FlyButton } from './FlyButton.tsx';

export interface StrokeChooserProps {
  readonly flight: FlightHere;
  readonly onClose: () => void;
}

/** A finger on its way here when the run-in begins, or once more on the choice, must not redo, skip or hold instead. */
const CLOSES_MILLISECONDS = 1_000;

/**
 * Which stroke comes next, by a touch on the drawn word or by the two arrows; what that costs is said before it is taken. It stands
 * in the place of three touches and of what lies ahead; the cues and knock it off stay.
 */
export function StrokeChooser({ flight, onClose }: StrokeChooserProps): VNode | null {
  const state = flight.state();
  const { choices, mayChoose, choose, end } = useMemo(() => strokeChoices(flight), [flight]);
  useEffect(() => end, [end]);
  const looked = useSignal<number | null>(null);
  const taken = useSignal(false);
  const opened = useMemo(() => mayChoose.peek(), [mayChoose]);
  const closing = useComputed(() => taken.value || !mayChoose.value);
  useSignalEffect(() => {
    if (!closing.value) return undefined;
    const timer = setTimeout(onClose, opened ? CLOSES_MILLISECONDS : 0);
    return () => clearTimeout(timer);
  });
  /** As they stand in the word. */
  const known = useComputed(() => choices.value?.toSorted((one, other) => one.letterIndex - other.letterIndex || one.strokeIndex - other.strokeIndex) ?? []);
  const choice = useComputed(() => known.value.find(({ strokeIndex }) => strokeIndex === looked.value) ?? choices.value?.[0] ?? null);
  const step = (by: number) => (): void => {
    const at = known.value.findIndex(({ strokeIndex }) => strokeIndex === choice.value?.strokeIndex) + by;
    looked.value = known.value.at(at % Math.max(1, known.value.length))?.strokeIndex ?? null;
  };
  if (state.phase === 'idle' || !opened) return null;
  const { setup, progress } = state.flight;
  const one = choice.value;
  const isNext = one !== null && one === choices.value?.[0];
  const disabled = closing.value || one === null;
  return (
    <>
      <ChooserPicture setup={setup} progress={progress} choice={one} onLook={(strokeIndex) => (looked.value = strokeIndex)} />
      <div class="write-touches write-chooser" role="group" aria-label="Which stroke comes next">
        <FlyButton words={['‹', 'stroke before']} onPress={step(-1)} disabled={disabled} />
        <FlyButton words={['›', 'stroke after']} onPress={step(1)} disabled={disabled} />
        <FlyButton
          words={one === null ? ['…', 'working out'] : [`${one.character} ${one.strokeIndex + 1}`, isNext ? 'stays next' : costWords(one)]}
          onPress={() => {
            taken.value = true;
            if (one !== null && !isNext) choose(one);
          }}
          disabled={disabled}
        />
        <span />
      </div>
    </>
  );
}

/** What a choice costs, in whole seconds until all is written. */
function costWords({ moreSeconds }: StrokeChoice): string {
  const seconds = Math.round(Math.abs(moreSeconds));
  if (seconds === 0) return 'next, same time';
  return `next, ${seconds}\u00a0s\u00a0${moreSeconds > 0 ? 'more' : 'less'}`;
}
