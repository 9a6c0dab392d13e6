import type { ReadonlySignal } from '@preact/signals';
import type { VNode } from 'preact';
import { NUMERAL_BRUSH, NUMERAL_HEIGHT, numeralAdvance, NUMERALS } from './numerals.ts';

/**
 * A number in drawn figures as high as the element, which the style sheet sizes. Hidden from assistive technology:
 * the words beside it say the same.
 */
export function Figures({ text, places }: { readonly text: ReadonlySignal<string>; readonly places: number }): VNode {
  const figures = [...text.value.padStart(places)];
  const lefts = figures.map((_, place) => figures.slice(0, place).reduce((sum, figure) => sum + numeralAdvance(figure), 0));
  const width = (lefts.at(-1) ?? 0) + 60;
  return (
    <svg class="figures-drawn" viewBox={`0 0 ${width} ${NUMERAL_HEIGHT}`} aria-hidden="true" stroke-width={NUMERAL_BRUSH}>
      {figures.map((figure, place) => {
        const line = NUMERALS[figure];
        return line === undefined ? null : <path key={place} d={line} transform={`translate(${lefts[place] ?? 0})`} />;
      })}
    </svg>
  );
}
