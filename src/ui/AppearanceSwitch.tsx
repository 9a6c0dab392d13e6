import type { VNode } from 'preact';
import { useApplication } from './application-context.ts';

/** Changes between ink on paper and chalk on dusk; the half of the disc that is full says which one is on. */
export function AppearanceSwitch(): VNode {
  const { appearance } = useApplication();
  const isNight = appearance.appearance.value === 'night';
  return (
    <button
      type="button"
      role="switch"
      class="appearance"
      aria-checked={isNight}
      aria-label="Chalk on dusk, for the night"
      title={isNight ? 'Change to ink on paper, for the day' : 'Change to chalk on dusk, for the night'}
      onClick={() => appearance.choose(isNight ? 'day' : 'night')}
    >
      <svg viewBox="0 0 28 28" aria-hidden="true">
        <circle cx="14" cy="14" r="10.5" />
        <path d={isNight ? 'M14 3.5a10.5 10.5 0 0 0 0 21Z' : 'M14 3.5a10.5 10.5 0 0 1 0 21Z'} />
      </svg>
    </button>
  );
}
