import { batch, type ReadonlySignal, signal } from '@preact/signals';
import type { Job } from '../../core/job/job.ts';
import type { Database } from '../../store/database.ts';
import type { DamagedJob } from '../../store/jobs.ts';
import type { StoredOverlay } from '../../store/overlays.ts';
import { storeFaultFrom } from '../../store/store-fault.ts';
import type { JobFile, RefusedFile } from './import-job-files.ts';

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

/** Fetched when a job is first asked for: a resumed flight needs neither the jobs nor the reader of their files. */
const jobBooks = () => import('../../store/jobs.ts');
const overlayBooks = () => import('../../store/overlays.ts');

/** Jobs over a database; `nowMilliseconds` is the device's clock. */
export function createJobShelf(database: Database, nowMilliseconds: () => number): JobShelf {
  const state = signal<JobsState>({ kind: 'loading' });
  const notice = signal<ShelfNotice | null>(null);
  let removed: { readonly job: Job; readonly overlay: StoredOverlay | null } | null = null;

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

  /** Does it, reads anew, and turns a fault into a notice. */
  async function attempt(what: string, action: () => Promise<ShelfNotice | null>): Promise<boolean> {
    try {
      const done = await action();
      await refresh();
      notice.value = done;
      return true;
    } catch (error) {
      notice.value = { kind: 'failed', what, reason: storeFaultFrom(error).message };
      return false;
    }
  }

  async function put(what: string, job: Job): Promise<Job | null> {
    const done = await attempt(what, async () => {
      await (await jobBooks()).addJobs(database, [job], nowMilliseconds());
      return null;
    });
    return done ? job : null;
  }

  const find = (jobId: string): Job | null => (state.value.kind === 'ready' ? (state.value.jobs.find(({ id }) => id === jobId) ?? null) : null);

  return {
    state,
    notice,
    dismissNotice() {
      batch(() => {
        removed = null;
        notice.value = null;
      });
    },
    refresh,
    find,
    async save(job) {
      await (await jobBooks()).saveJob(database, job, nowMilliseconds());
      const before = state.value;
      if (before.kind !== 'ready') return refresh();
      state.value = { ...before, jobs: [job, ...before.jobs.filter(({ id }) => id !== job.id)] };
    },
    create: async () =>
      put('The new job was not stored', (await import('./new-job.ts')).newJob(nowMilliseconds(), Intl.DateTimeFormat().resolvedOptions().timeZone)),
    async duplicate(jobId) {
      const job = find(jobId);
      if (job === null) return null;
      const copy = (await import('./new-job.ts')).copiedJob(job);
      const done = await attempt('The copy was not stored', async () => {
        const overlay = await (await overlayBooks()).readOverlay(database, jobId);
        await (await jobBooks()).addJobs(database, [copy], nowMilliseconds());
        if (overlay !== null) await (await overlayBooks()).saveOverlay(database, copy.id, overlay);
        return null;
      });
      return done ? copy : null;
    },
    async remove(jobId) {
      const job = find(jobId);
      if (job === null) return;
      await attempt(`${job.name} was not deleted`, async () => {
        const overlay = await (await overlayBooks()).readOverlay(database, jobId);
        await (await jobBooks()).deleteJob(database, jobId);
        removed = { job, overlay };
        return { kind: 'removed', name: job.name };
      });
    },
    async undoRemove() {
      if (removed === null) return;
      const { job, overlay } = removed;
      await attempt(`${job.name} was not brought back`, async () => {
        await (await jobBooks()).addJobs(database, [job], nowMilliseconds());
        if (overlay !== null) await (await overlayBooks()).saveOverlay(database, job.id, overlay);
        removed = null;
        return null;
      });
    },
    async importFiles(files) {
      const { readJobFiles, withFreeIds } = await import('./import-job-files.ts');
      const reading = await readJobFiles(files);
      if (!reading.ok) {
        notice.value = { kind: 'refused', refused: reading.refused, readableCount: reading.readableCount };
        return;
      }
      await attempt('The import was not stored; nothing was changed', async () => {
        const { addJobs, readJobs } = await jobBooks();
        const { jobs: there, damaged } = await readJobs(database);
        const fresh = withFreeIds(reading.jobs, there, new Set([...there, ...damaged].map(({ id }) => id)));
        await addJobs(database, fresh, nowMilliseconds());
        return { kind: 'imported', names: reading.jobs.map(({ name }) => name) };
      });
    },
  };
}
