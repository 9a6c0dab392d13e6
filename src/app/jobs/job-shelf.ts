import { type ReadonlySignal, signal } from '@preact/signals';
import type { Job } from '../../core/job/job.ts';
import type { Database } from '../../store/database.ts';
import type { DamagedJob } from '../../store/jobs.ts';
import { storeFaultFrom } from '../../store/store-fault.ts';
import type { JobFile, RefusedFile } from './import-job-files.ts';
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
  /** Stores an edited job. Rejects with a `StoreFault`. */
  save(job: Job): Promise<void>;
  /** The new job, or null when it could not be stored; the notice then says why. */
  create(): Promise<Job | null>;
  duplicate(jobId: string): Promise<Job | null>;
  remove(jobId: string): Promise<void>;
  /** Brings back what was removed last, as long as the notice of it stands. */
  undoRemove(): Promise<void>;
  /** Takes all files or none; the notice says which and why. */
  importFiles(files: readonly JobFile[]): Promise<void>;
}

/** Fetched when a job is first asked for: a resumed flight needs neither the jobs nor what is done to them. */
const jobBooks = () => import('../../store/jobs.ts');

/** Jobs over a database; `nowMilliseconds` is the device's clock. */
export function createJobShelf(database: Database, nowMilliseconds: () => number): JobShelf {
  const state = signal<JobsState>({ kind: 'loading' });
  const notice = signal<ShelfNotice | null>(null);

  async function refresh(): Promise<void> {
    try {
      const { readJobs, storeFirstRunJobs } = await jobBooks();
      let read = await readJobs(database);
      if (read.jobs.length === 0) {
        // Fetched for the first run alone: what a flight is resumed with stays small. A tab that only reads still shows what is there.
        const { DEMO_JOB } = await import('../../core/job/demo-job.ts');
        await storeFirstRunJobs(database, [DEMO_JOB], nowMilliseconds()).catch(() => {});
        read = await readJobs(database);
      }
      state.value = { kind: 'ready', ...read };
    } catch (error) {
      state.value = { kind: 'failed', reason: storeFaultFrom(error).message };
    }
  }

  const find = (jobId: string): Job | null => (state.value.kind === 'ready' ? (state.value.jobs.find(({ id }) => id === jobId) ?? null) : null);

  let actions: Promise<ShelfActions> | null = null;
  const acting = (): Promise<ShelfActions> => {
    actions ??= import('./shelf-actions.ts').then(({ createShelfActions }) => createShelfActions({ database, nowMilliseconds, notice, refresh, find }));
    return actions;
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
    async save(job) {
      await (await jobBooks()).saveJob(database, job, nowMilliseconds());
      const before = state.value;
      if (before.kind !== 'ready') return refresh();
      state.value = { ...before, jobs: [job, ...before.jobs.filter(({ id }) => id !== job.id)] };
    },
    create: async () => (await acting()).create(),
    duplicate: async (jobId) => (await acting()).duplicate(jobId),
    remove: async (jobId) => (await acting()).remove(jobId),
    undoRemove: async () => (await acting()).undoRemove(),
    importFiles: async (files) => (await acting()).importFiles(files),
  };
}
