import { type ReadonlySignal, signal } from '@preact/signals';
import type { Job } from '../../core/job/job.ts';
import type { Database } from '../../store/database.ts';
import type { DamagedJob, JobsReading } from '../../store/jobs.ts';
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

/** Fetched when a job is first asked for: a resumed flight needs neither the jobs nor what is done to them. */
const jobBooks = () => import('../../store/jobs.ts');

const NO_NEWS: JobNews = { tell: () => {}, onTold: () => {} };

/** Jobs over a database; `nowMilliseconds` is the device's clock; `unsaved` is where pages that went left what was not stored. */
export function createJobShelf(database: Database, nowMilliseconds: () => number, news: JobNews = NO_NEWS, unsaved: (() => Storage) | null = null): JobShelf {
  const state = signal<JobsState>({ kind: 'loading' });
  const notice = signal<ShelfNotice | null>(null);

  let saves = 0;

  async function refresh(): Promise<void> {
    try {
      const { readJobs, storeFirstRunJobs } = await jobBooks();
      await takeUp();
      let savesBefore = -1;
      let read: JobsReading = { jobs: [], damaged: [] };
      // What was read before a save of this tab's own would show the job as it was.
      while (savesBefore !== saves) {
        savesBefore = saves;
        read = await readJobs(database);
      }
      if (read.jobs.length === 0) {
        // Fetched for the first run alone: what a flight is resumed with stays small. A tab that only reads still shows what is there.
        const { DEMO_JOB } = await import('../../core/job/demo-job.ts');
        await storeFirstRunJobs(database, [DEMO_JOB], nowMilliseconds()).catch(() => {});
        read = await readJobs(database);
      }
      state.value = { kind: 'ready', jobs: read.jobs.map(asBefore), damaged: read.damaged };
    } catch (error) {
      state.value = { kind: 'failed', reason: storeFaultFrom(error).message };
    }
  }

  let takenUp = false;

  /** What pages could not store when they went; tried again at the next reading when it fails. */
  async function takeUp(): Promise<void> {
    if (takenUp || unsaved === null) return;
    const [{ saveJob }, { takeUpUnsaved }] = await Promise.all([jobBooks(), import('./unsaved-edits.ts')]);
    await takeUpUnsaved(unsaved, ({ job, base }) => saveJob(database, job, base, nowMilliseconds())).then(
      () => (takenUp = true),
      () => {},
    );
  }

  /** A job that is as it was stays the same object, so that nothing is worked out again for it. */
  function asBefore(job: Job): Job {
    const before = find(job.id);
    return before !== null && JSON.stringify(before) === JSON.stringify(job) ? before : job;
  }

  /** Told of several changes while it reads, it reads once more. */
  function refreshWhenTold(): void {
    let told = false;
    let reading = false;
    news.onTold(async () => {
      told = true;
      if (reading) return;
      reading = true;
      while (told) {
        told = false;
        await refresh();
      }
      reading = false;
    });
  }
  refreshWhenTold();

  const find = (jobId: string): Job | null => (state.value.kind === 'ready' ? (state.value.jobs.find(({ id }) => id === jobId) ?? null) : null);

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

  return {
    state,
    notice,
    dismissNotice() {
      notice.value = null;
      void actions?.then((made) => made.forgetRemoved());
    },
    refresh,
    find,
    async save(job, base) {
      const { saveJob } = await jobBooks();
      const stored = await saveJob(database, job, base ?? find(job.id), nowMilliseconds());
      saves += 1;
      news.tell();
      const before = state.value;
      if (before.kind !== 'ready') await refresh();
      else state.value = { ...before, jobs: [stored, ...before.jobs.filter(({ id }) => id !== stored.id)] };
      return stored;
    },
    create: async () => (await acting()).create(),
    duplicate: async (jobId) => (await acting()).duplicate(jobId),
    remove: async (jobId) => (await acting()).remove(jobId),
    undoRemove: async () => (await acting()).undoRemove(),
    importFiles: async (files) => (await acting()).importFiles(files),
  };
}
