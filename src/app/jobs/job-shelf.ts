import { signal } from '@preact/signals';
import type { Job } from '../../core/job/job.ts';
import type { Database } from '../../store/database.ts';
import { storeFaultFrom } from '../../store/store-fault.ts';
import type { OpenShelf } from './open-shelf.ts';
import type { ShelfActions } from './shelf-actions.ts';
import type { JobNews, JobShelf, JobsState, ShelfNotice } from './shelf-types.ts';

const NO_NEWS: JobNews = { tell: () => {}, onTold: () => {} };

/** Jobs over a database; `nowMilliseconds` is the device's clock; `unsaved` is where pages that went left what was not stored. */
export function createJobShelf(database: Database, nowMilliseconds: () => number, news: JobNews = NO_NEWS, unsaved: (() => Storage) | null = null): JobShelf {
  const state = signal<JobsState>({ kind: 'loading' });
  const notice = signal<ShelfNotice | null>(null);
  const find = (jobId: string): Job | null => (state.value.kind === 'ready' ? (state.value.jobs.find(({ id }) => id === jobId) ?? null) : null);

  let opened: Promise<OpenShelf> | null = null;
  const open = (): Promise<OpenShelf> => {
    // A chunk that could not be fetched is asked for again.
    opened ??= import('./open-shelf.ts').then(
      (module) => module.openShelf({ database, nowMilliseconds, state, find, news, unsaved }),
      (error: unknown) => {
        opened = null;
        throw error;
      },
    );
    return opened;
  };
  const refresh = async (): Promise<void> => {
    try {
      await (await open()).refresh();
    } catch (error) {
      state.value = { kind: 'failed', reason: storeFaultFrom(error).message };
    }
  };

  let actions: Promise<ShelfActions> | null = null;
  const acting = (): Promise<ShelfActions> => {
    actions ??= import('./shelf-actions.ts').then(({ createShelfActions }) =>
      createShelfActions({
        database,
        nowMilliseconds,
        notice,
        refresh: async () => {
          await refresh();
          news.tell();
        },
        find,
      }),
    );
    return actions;
  };
  /** What is asked in the first second, before its code is there, is carried out or refused aloud; a refused one can be pressed again. */
  const act = async <Done>(what: (made: ShelfActions) => Promise<Done>, refused: Done): Promise<Done> => {
    let made: ShelfActions;
    try {
      made = await acting();
    } catch {
      actions = null;
      notice.value = { kind: 'failed', what: 'Nothing was done', reason: 'A part of the app could not be loaded. Press again, or load the page again.' };
      return refused;
    }
    return what(made);
  };

  return {
    state,
    notice,
    dismissNotice() {
      notice.value = null;
      void actions?.then((made) => made.forgetRemoved());
    },
    refresh,
    find,
    save: async (job, base) => (await open()).save(job, base),
    create: () => act((made) => made.create(), null),
    duplicate: (jobId) => act((made) => made.duplicate(jobId), null),
    remove: (jobId) => act((made) => made.remove(jobId), undefined),
    undoRemove: () => act((made) => made.undoRemove(), undefined),
    importFiles: (files) => act((made) => made.importFiles(files), undefined),
  };
}
