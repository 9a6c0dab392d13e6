import type { ReadonlySignal } from '@preact/signals';
import type { VNode } from 'preact';
import { Figures } from './Figures.tsx';

export interface SmokeBandProps {
  readonly smoke: ReadonlySignal<'on' | 'off' | null>;
  readonly countdownUse: ReadonlySignal<string>;
  readonly countdownText: ReadonlySignal<string>;
  /** Seconds left of the last five; 0 when the change is further off. */
  readonly lastSeconds: ReadonlySignal<number>;
  /** The true switch has stood otherwise than cued for longer than a hand takes. */
  readonly differs: ReadonlySignal<boolean>;
  /** The true switch, where it is wired. */
  readonly marked: ReadonlySignal<'on' | 'off' | null>;
}

const BEADS = [5, 4, 3, 2, 1] as const;

/** The smoke: a full band with billowing edges while it is to be on, an empty dashed frame while it is to be off. */
export function SmokeBand({ smoke, countdownUse, countdownText, lastSeconds, differs, marked }: SmokeBandProps): VNode {
  if (differs.value && smoke.value !== null) {
    // What the hand must do, and nothing beside it.
    return (
      <div class="write-smoke" data-smoke="differs" data-last="no" role="alert">
        <strong class="write-smoke-word write-smoke-now">SWITCH {smoke.value.toUpperCase()} NOW</strong>
      </div>
    );
  }
  return (
    <div class="write-smoke" data-smoke={smoke.value ?? 'none'} data-last={lastSeconds.value > 0 ? 'yes' : 'no'}>
      <strong class="write-smoke-word">
        <span>SMOKE</span> <span class="write-smoke-state">{smoke.value === 'on' ? 'ON' : smoke.value === 'off' ? 'OFF' : ''}</span>
      </strong>
      <SwitchMark marked={marked} />
      <span class="write-countdown">
        <span class="write-countdown-words">
          <span class="write-countdown-use">{countdownUse}</span>
          <span class="write-beads" aria-hidden="true">
            {BEADS.map((bead) => (
              <i key={bead} class={bead <= lastSeconds.value ? 'write-bead full' : 'write-bead'} />
            ))}
          </span>
        </span>
        <Countdown text={countdownText} />
      </span>
    </div>
  );
}

/** In a component of its own, so that a changing second redraws the figures and nothing else. */
function Countdown({ text }: { readonly text: ReadonlySignal<string> }): VNode | null {
  return text.value === '' ? null : <Figures text={text} places={text.value.length} />;
}

/** What the true switch says, once it has said anything. */
function SwitchMark({ marked }: Pick<SmokeBandProps, 'marked'>): VNode | null {
  if (marked.value === null) return null;
  return (
    <span class="write-switch" data-switch={marked.value}>
      switch is {marked.value === 'on' ? 'ON' : 'OFF'}
    </span>
  );
}
