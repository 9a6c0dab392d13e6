import type { Signal } from '@preact/signals';
import type { Job } from '../../core/job/job.ts';
import type { Database } from '../../store/database.ts';
import { addJobs, deleteJob, readJobs } from '../../store/jobs.ts';
import { readOverlay, saveOverlay, type StoredOverlay } from '../../store/overlays.ts';
import { storeFaultFrom } from '../../store/store-fault.ts';
import { readJobFiles, withFreeIds } from './import-job-files.ts';
import type { JobShelf, ShelfNotice } from './shelf-types.ts';
import { copiedJob, newJob } from './new-job.ts';

/** What is done to the jobs; fetched when it is first done. */
export interface ShelfActions extends Pick<JobShelf, 'create' | 'duplicate' | 'remove' | 'undoRemove' | 'importFiles'> {
  /** What was removed last cannot be brought back any more. */
  forgetRemoved(): void;
}

export interface ShelfParts extends Pick<JobShelf, 'refresh' | 'find'> {
  readonly database: Database;
  readonly nowMilliseconds: () => number;
  readonly notice: Signal<ShelfNotice | null>;
}

export function createShelfActions({ database, nowMilliseconds, notice, refresh, find }: ShelfParts): ShelfActions {
  let removed: { readonly job: Job; readonly overlay: StoredOverlay | null } | null = null;

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
      await addJobs(database, [job], nowMilliseconds());
      return null;
    });
    return done ? job : null;
  }

  return {
    forgetRemoved() {
      removed = null;
    },
    create: async () => put('The new job was not stored', newJob(nowMilliseconds(), Intl.DateTimeFormat().resolvedOptions().timeZone)),
    async duplicate(jobId) {
      const job = find(jobId);
      if (job === null) return null;
      const copy = copiedJob(job);
      const done = await attempt('The copy was not stored', async () => {
        const overlay = await readOverlay(database, jobId);
        await addJobs(database, [copy], nowMilliseconds());
        if (overlay !== null) await saveOverlay(database, copy.id, overlay);
        return null;
      });
      return done ? copy : null;
    },
    async remove(jobId) {
      const job = find(jobId);
      if (job === null) return;
      await attempt(`${job.name} was not deleted`, async () => {
        const overlay = await readOverlay(database, jobId);
        await deleteJob(database, jobId);
        removed = { job, overlay };
        return { kind: 'removed', name: job.name };
      });
    },
    async undoRemove() {
      if (removed === null) return;
      const { job, overlay } = removed;
      await attempt(`${job.name} was not brought back`, async () => {
        await addJobs(database, [job], nowMilliseconds());
        if (overlay !== null) await saveOverlay(database, job.id, overlay);
        removed = null;
        return null;
      });
    },
    async importFiles(files) {
      const reading = await readJobFiles(files);
      if (!reading.ok) {
        notice.value = { kind: 'refused', refused: reading.refused, readableCount: reading.readableCount };
        return;
      }
      await attempt('The import was not stored; nothing was changed', async () => {
        const { jobs: there, damaged } = await readJobs(database);
        const fresh = withFreeIds(reading.jobs, there, new Set([...there, ...damaged].map(({ id }) => id)));
        await addJobs(database, fresh, nowMilliseconds());
        return { kind: 'imported', names: reading.jobs.map(({ name }) => name) };
      });
    },
  };
}
