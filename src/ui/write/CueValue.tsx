import { type ReadonlySignal, useComputed } from '@preact/signals';
import type { ComponentChildren, VNode } from 'preact';
import type { Cues } from '../../core/guidance/cues.ts';
import { type CueName, cueValue } from './cue-values.ts';

export interface CueValueProps {
  readonly cues: ReadonlySignal<Cues>;
  readonly name: CueName;
  readonly class?: string;
  readonly onTouch?: () => void;
  readonly children?: ComponentChildren;
}

/** An element of the cue contract: the machine value in `data-value`, whatever a person reads inside. */
export function CueValue({ cues, name, class: className, onTouch, children }: CueValueProps): VNode {
  const value = useComputed(() => cueValue(cues.value, name));
  return (
    <div class={className} data-cue={name} data-value={value} onClick={onTouch}>
      {children}
    </div>
  );
}
