import { type ReadonlySignal, signal } from '@preact/signals';
import type { Database } from '../store/database.ts';
import type { OneWriter, WriterState } from '../store/one-writer.ts';
import { askPersistence, type Persistence } from '../store/persistence.ts';

/** What is known of the place where everything is stored. */
export interface StorageWatch {
  /** Null until the browser has answered. */
  readonly persistence: ReadonlySignal<Persistence | null>;
  readonly writer: ReadonlySignal<WriterState>;
  /** Asks the browser to keep the data; some show a question, so never in flight. */
  ask(): Promise<void>;
}

/** Follows which tab writes, and finds a dead handle when the page comes back to the front. */
export function watchStorage(database: Database, oneWriter: OneWriter): StorageWatch {
  const persistence = signal<Persistence | null>(null);
  const writer = signal(oneWriter.state());
  oneWriter.subscribe(() => {
    writer.value = oneWriter.state();
  });
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') database.probe().catch(() => {});
  });
  return {
    persistence,
    writer,
    async ask() {
      persistence.value = await askPersistence(navigator.storage);
    },
  };
}
