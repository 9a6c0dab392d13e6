import type { Signal } from '@preact/signals';
import type { Job } from '../../core/job/job.ts';
import type { Database } from '../../store/database.ts';
import { type JobsReading, readJobs, saveJob, storeFirstRunJobs } from '../../store/jobs.ts';
import { storeFaultFrom } from '../../store/store-fault.ts';
import type { JobNews, JobsState } from './shelf-types.ts';

/** What an opened shelf works on. */
export interface OpenShelfParts {
  readonly database: Database;
  readonly nowMilliseconds: () => number;
  readonly state: Signal<JobsState>;
  readonly find: (jobId: string) => Job | null;
  readonly news: JobNews;
  /** Where pages that went left what was not stored. */
  readonly unsaved: (() => Storage) | null;
}

/** The reading and storing of jobs: fetched when one is first asked for, since a resumed flight needs none. */
export interface OpenShelf {
  refresh(): Promise<void>;
  save(job: Job, base?: Job): Promise<Job>;
}

/** Reads at once when another tab has changed what is stored. */
export function openShelf({ database, nowMilliseconds, state, find, news, unsaved }: OpenShelfParts): OpenShelf {
  let saves = 0;

  async function refresh(): Promise<void> {
    try {
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
    const { takeUpUnsaved } = await import('./unsaved-edits.ts');
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

  return {
    refresh,
    async save(job, base) {
      const stored = await saveJob(database, job, base ?? find(job.id), nowMilliseconds());
      saves += 1;
      news.tell();
      const before = state.value;
      if (before.kind !== 'ready') await refresh();
      else state.value = { ...before, jobs: [stored, ...before.jobs.filter(({ id }) => id !== stored.id)] };
      return stored;
    },
  };
}
