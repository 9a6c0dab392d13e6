import { StoreFault } from './store-fault.ts';

/** `unguarded`: this browser has no Web Locks, so a second tab cannot be noticed. */
export type WriterState = 'asking' | 'writer' | 'reader' | 'unguarded';

/** Which of the open tabs writes. */
export interface OneWriter {
  state(): WriterState;
  /** Calls back on every change; the returned function ends it. */
  subscribe(listener: () => void): () => void;
  /** Resolves once this tab may write; rejects with `read-only` when another tab does. */
  permitWriting(): Promise<void>;
}

/** A page that is being reloaded gives its lock back a moment after the next one asks. */
const PATIENCE_SECONDS = 0.5;

/**
 * Asks for the one lock of the stored data and holds it as long as the page lives. A tab that does not get it
 * reads, keeps asking, and becomes the writer when the other tab closes or dies.
 */
export function createOneWriter(locks: LockManager | undefined, name = 'quillwind-writer'): OneWriter {
  const listeners = new Set<() => void>();
  let state: WriterState = locks === undefined ? 'unguarded' : 'asking';
  let decide = (): void => {};
  const decided = state === 'asking' ? new Promise<void>((resolve) => (decide = resolve)) : Promise.resolve();

  function become(next: WriterState): void {
    state = next;
    decide();
    for (const listener of listeners) listener();
  }

  if (locks !== undefined) {
    const impatient = setTimeout(() => become('reader'), PATIENCE_SECONDS * 1000);
    locks
      .request(name, () => {
        clearTimeout(impatient);
        become('writer');
        // Never resolved: the browser takes the lock back when the page ends, however it ends.
        return new Promise<never>(() => {});
      })
      .catch(() => {
        clearTimeout(impatient);
        become('unguarded');
      });
  }

  return {
    state: () => state,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    async permitWriting() {
      await decided;
      if (state === 'reader') throw new StoreFault('read-only');
    },
  };
}
