import { type ReadonlySignal, signal } from '@preact/signals';
import type { Database } from '../store/database.ts';
import { readSetting, saveSetting } from '../store/settings.ts';

export type Appearance = 'day' | 'night';

/** Ink on paper or chalk on dusk, as the user chose it last; the device's own choice until then. */
export interface AppearanceChoice {
  readonly appearance: ReadonlySignal<Appearance>;
  choose(appearance: Appearance): void;
}

const SETTING = 'appearance';
const THEME_COLOURS: Readonly<Record<Appearance, string>> = { day: '#f6f1e4', night: '#1a2231' };

/** Shows the choice on the page at once and again when the stored one has been read. */
export function followAppearance(database: Database): AppearanceChoice {
  const appearance = signal<Appearance>(matchMedia('(prefers-color-scheme: dark)').matches ? 'night' : 'day');
  let chosen = false;
  const show = (next: Appearance): void => {
    appearance.value = next;
    document.documentElement.dataset['appearance'] = next;
    document.querySelector('meta[name="theme-color"]')?.setAttribute('content', THEME_COLOURS[next]);
  };
  show(appearance.value);
  readSetting(database, SETTING).then(
    (stored) => {
      if (!chosen && (stored === 'day' || stored === 'night')) show(stored);
    },
    () => {},
  );
  return {
    appearance,
    choose(next) {
      chosen = true;
      show(next);
      // A choice that cannot be kept is still shown.
      saveSetting(database, SETTING, next).catch(() => {});
    },
  };
}
