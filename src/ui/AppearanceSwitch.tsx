import type { VNode } from 'preact';
import { useApplication } from './application-context.ts';

/** Changes between ink on paper and chalk on dusk. */
export function AppearanceSwitch(): VNode {
  const { appearance } = useApplication();
  const isNight = appearance.appearance.value === 'night';
  return (
    <button type="button" class="plain" aria-pressed={isNight} onClick={() => appearance.choose(isNight ? 'day' : 'night')}>
      {isNight ? 'Day' : 'Night'}
      <span class="visually-hidden"> colours</span>
    </button>
  );
}
