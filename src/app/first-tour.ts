import { type ReadonlySignal, signal } from '@preact/signals';
import type { Database } from '../store/database.ts';
import { readSetting, saveSetting } from '../store/settings.ts';

/** The tour of a first visit. */
export interface FirstTour {
  /** False until the store has said that it was never left. */
  readonly shown: ReadonlySignal<boolean>;
  /** Whether the store has said so, or cannot. */
  readonly asked: ReadonlySignal<boolean>;
  leave(): void;
  /** Shows it again, as often as it is asked for. */
  show(): void;
}

const SETTING = 'tour-left';

/** Offers the tour once, unless the store cannot say whether it was left. */
export function createFirstTour(database: Database): FirstTour {
  const shown = signal(false);
  const asked = signal(false);
  readSetting(database, SETTING).then(
    (left) => {
      if (left === null) shown.value = true;
      asked.value = true;
    },
    () => (asked.value = true),
  );
  return {
    shown,
    asked,
    leave() {
      shown.value = false;
      // One that cannot be kept is only offered once more.
      saveSetting(database, SETTING, true).catch(() => {});
    },
    show() {
      shown.value = true;
    },
  };
}
