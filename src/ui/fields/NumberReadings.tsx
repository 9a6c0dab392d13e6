import type { VNode } from 'preact';
import { formatNumber } from '../../core/text/number-formats.ts';
import type { NumberDraft } from './use-number-draft.ts';

/** What is understood of a number while it is typed, or both of what it may mean, to be chosen from with one touch. */
export function NumberReadings({ draft, unit }: { readonly draft: NumberDraft; readonly unit: string }): VNode | null {
  const words = (value: number): string => `${formatNumber(value, Number.isInteger(value) ? 0 : decimalsOf(value))} ${unit}`.trim();
  if (draft.readings.length > 0) {
    return (
      <span class="number-readings" role="group" aria-label="Which is meant?">
        {draft.readings.map((value) => (
          <button key={value} type="button" onClick={() => draft.choose(value)}>
            {words(value)}
          </button>
        ))}
      </span>
    );
  }
  return draft.understood === null ? null : (
    <span class="number-understood small quiet" aria-live="polite">
      = {words(draft.understood)}
    </span>
  );
}

function decimalsOf(value: number): number {
  return Math.min(6, (String(Number(value.toFixed(6))).split('.')[1] ?? '').length);
}
