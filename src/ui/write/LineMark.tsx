import type { ReadonlySignal } from '@preact/signals';
import type { VNode } from 'preact';
import { PEN_NIB } from '../drawing/pen-nib.ts';

export interface LineMarkProps {
  readonly side: ReadonlySignal<'left' | 'right' | 'here' | null>;
  readonly text: ReadonlySignal<string>;
  /** Where the line's mark stands, -1 to 1; the aircraft is in the middle. */
  readonly share: ReadonlySignal<number>;
}

/**
 * The stroke's line against the aircraft, which stays in the middle: where the line is, there to go. In words and a
 * mark, without an arrow: the turn's arrow is the only one to obey.
 */
export function LineMark({ side, text, share }: LineMarkProps): VNode | null {
  if (side.value === null) return null;
  return (
    <div class="write-line" data-line={side.value}>
      <svg class="write-line-mark" viewBox="-100 0 200 40" preserveAspectRatio="none" aria-hidden="true">
        <path class="write-line-scale" d="M-100 38H100" />
      </svg>
      <i class="write-line-ink" style={{ left: `${(50 + share.value * 46).toFixed(1)}%` }} />
      <svg class="write-line-own" viewBox="-9 -13 18 24" aria-hidden="true">
        <path d={PEN_NIB} transform="rotate(-90)" />
      </svg>
      <span class="write-line-text" data-side={side.value}>
        {text}
      </span>
    </div>
  );
}
