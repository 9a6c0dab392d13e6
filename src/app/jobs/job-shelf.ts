import { type ReadonlySignal, signal } from '@preact/signals';
import type { Job } from '../../core/job/job.ts';
import type { Database } from '../../store/database.ts';
import type { DamagedJob } from '../../store/jobs.ts';
import { storeFaultFrom } from '../../store/store-fault.ts';
import type { JobFile, RefusedFile } from './import-job-files.ts';
import type { OpenShelf } from './open-shelf.ts';
import type { ShelfActions } from './shelf-actions.ts';

/** The stored jobs as last read. */
export type JobsState =
  | { readonly kind: 'loading' }
  | { readonly kind: 'ready'; readonly jobs: readonly Job[]; readonly damaged: readonly DamagedJob[] }
  | { readonly kind: 'failed'; readonly reason: string };

/** What became of the last thing done to the jobs. */
export type ShelfNotice =
  | { readonly kind: 'imported'; readonly names: readonly string[] }
  | { readonly kind: 'refused'; readonly refused: readonly RefusedFile[]; readonly readableCount: number }
  | { readonly kind: 'removed'; readonly name: string }
  | { readonly kind: 'failed'; readonly what: string; readonly reason: string };

/** All jobs, and everything that is done to them. */
export interface JobShelf {
  readonly state: ReadonlySignal<JobsState>;
  readonly notice: ReadonlySignal<ShelfNotice | null>;
  dismissNotice(): void;
  /** Reads the jobs anew; the demo job is stored before the first reading of all. */
  refresh(): Promise<void>;
  /** A job of the last reading; null when there is none with this id. */
  find(jobId: string): Job | null;
  /**
   * Stores an edited job beside what other tabs made of it, and resolves with it as it is stored now. `base` is the job
   * that was edited; when left out, the one of the last reading. Rejects with a `StoreFault`.
   */
  save(job: Job, base?: Job): Promise<Job>;
  /** The new job, or null when it could not be stored; the notice then says why. */
  create(): Promise<Job | null>;
  duplicate(jobId: string): Promise<Job | null>;
  remove(jobId: string): Promise<void>;
  /** Brings back what was removed last, as long as the notice of it stands. */
  undoRemove(): Promise<void>;
  /** Takes all files or none; the notice says which and why. */
  importFiles(files: readonly JobFile[]): Promise<void>;
}

/** How the tabs of one browser tell each other that the stored jobs have changed. */
export interface JobNews {
  tell(): void;
  onTold(listener: () => void | Promise<void>): void;
}

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
