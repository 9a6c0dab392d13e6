import { type ReadonlySignal, useComputed } from '@preact/signals';
import type { ComponentChildren, HTMLAttributes, VNode } from 'preact';
import type { Cues } from '../../core/guidance/cues.ts';
import { type CueName, cueValue } from './cue-values.ts';

export interface CueValueProps {
  readonly cues: ReadonlySignal<Cues>;
  readonly name: CueName;
  readonly class?: string;
  /** By a finger, Enter or the space bar; `label` says what for. */
  readonly touch?: { readonly label: string; readonly onTouch: () => void };
  readonly children?: ComponentChildren;
}

/** An element of the cue contract: the machine value in `data-value`, whatever a person reads inside. */
export function CueValue({ cues, name, class: className, touch, children }: CueValueProps): VNode {
  const value = useComputed(() => cueValue(cues.value, name));
  return (
    <div class={className} data-cue={name} data-value={value} {...(touch && asButton(touch))}>
      {children}
    </div>
  );
}

function asButton({ label, onTouch }: NonNullable<CueValueProps['touch']>): HTMLAttributes<HTMLDivElement> {
  return {
    role: 'button',
    tabIndex: 0,
    title: label,
    onClick: onTouch,
    onKeyDown(event) {
      // A key that the smoke's switch is wired as does nothing else.
      if (event.defaultPrevented || (event.key !== 'Enter' && event.key !== ' ')) return;
      event.preventDefault();
      onTouch();
    },
  };
}
