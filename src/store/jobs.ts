import type { Job } from '../core/job/job.ts';
import { mergeWholeJobs } from '../core/job/merge-jobs.ts';
import { parseJob } from '../core/job/parse-job.ts';
import { writeJob } from '../core/job/write-job.ts';
import type { Database } from './database.ts';
import { addVersions, versionsKey } from './job-versions.ts';
import { overlayKey } from './overlays.ts';
import type { StoredJob } from './schema.ts';
import { StoreFault } from './store-fault.ts';

/** A stored job that cannot be read. Nothing of it is changed or deleted. */
export interface DamagedJob {
  readonly id: string;
  /** By whatever name it still has. */
  readonly name: string;
  readonly reason: string;
}

export interface JobsReading {
  /** Last changed first. */
  readonly jobs: readonly Job[];
  readonly damaged: readonly DamagedJob[];
}

/** Every stored job, damaged ones by name (never left out silently). Rejects with a `StoreFault`. */
export async function readJobs(database: Database): Promise<JobsReading> {
  const [keys, values] = await database.transact(['jobs'], 'readonly', async (transaction) => {
    const store = transaction.objectStore('jobs');
    // One after the other: when the second cannot even be asked, nobody would hear the first one fail.
    return [await store.getAllKeys(), (await store.getAll()) as unknown[]];
  });
  const found: { readonly job: Job; readonly savedAtMilliseconds: number }[] = [];
  const damaged: DamagedJob[] = [];
  for (const [index, id] of keys.entries()) {
    const { name, fileText, savedAtMilliseconds } = fieldsOf(values[index]);
    const reading = parseJob(fileText);
    if (reading.ok && reading.value.id === id) {
      found.push({ job: reading.value, savedAtMilliseconds: typeof savedAtMilliseconds === 'number' ? savedAtMilliseconds : 0 });
    } else {
      damaged.push({
        id,
        name: typeof name === 'string' ? name : id,
        reason: reading.ok ? 'It is stored under another job’s id.' : reading.reason,
      });
    }
  }
  found.sort((one, other) => other.savedAtMilliseconds - one.savedAtMilliseconds);
  return { jobs: found.map(({ job }) => job), damaged };
}

function storedFrom(job: Job, savedAtMilliseconds: number): StoredJob {
  return { id: job.id, name: job.name, savedAtMilliseconds, fileText: writeJob(job) };
}

/**
 * Stores an edited job and resolves with it as it is stored now. `base` is the job that was edited: what was stored by
 * another tab since then stays, put together with this by field in the one transaction, and where both edited the same
 * field the stored one stays and the other is kept beside it (`job-versions.ts`). An edit outlives a deletion. Any tab
 * may: what it knows is held against what is stored. A null base is a job that must not be there yet.
 * Rejects with a `StoreFault`, `conflict` when something that cannot be read is stored under this id.
 */
export async function saveJob(database: Database, job: Job, base: Job | null, savedAtMilliseconds: number): Promise<Job> {
  return database.transact(
    ['jobs', 'settings'],
    'readwrite',
    async (transaction) => {
      const store = transaction.objectStore('jobs');
      const { fileText } = fieldsOf(await store.get(job.id));
      if (fileText !== undefined && base === null) throw new StoreFault('conflict');
      if (fileText === undefined || base === null || fileText === writeJob(base)) {
        await store.put(storedFrom(job, savedAtMilliseconds));
        return job;
      }
      const stored = parseJob(fileText);
      if (!stored.ok) throw new StoreFault('conflict');
      const merge = mergeWholeJobs(base, job, stored.value);
      if (merge.job !== stored.value) await store.put(storedFrom(merge.job, savedAtMilliseconds));
      if (merge.conflicts.length > 0) await addVersions(transaction.objectStore('settings'), job.id, merge.conflicts, savedAtMilliseconds);
      return merge.job;
    },
    'any-tab',
  );
}

/** Stores jobs beside those that are there, all or none. Rejects with a `StoreFault`, `conflict` when an id is taken. */
export async function addJobs(database: Database, jobs: readonly Job[], savedAtMilliseconds: number): Promise<void> {
  await database.transact(['jobs'], 'readwrite', async (transaction) => {
    const store = transaction.objectStore('jobs');
    for (const job of jobs) {
      if ((await store.getKey(job.id)) !== undefined) throw new StoreFault('conflict');
      await store.add(storedFrom(job, savedAtMilliseconds));
    }
  });
}

/** Removes a job and its overlay; its flights stay. One that is not there is no fault. Rejects with a `StoreFault`. */
export async function deleteJob(database: Database, jobId: string): Promise<void> {
  await database.transact(['jobs', 'settings'], 'readwrite', async (transaction) => {
    await transaction.objectStore('jobs').delete(jobId);
    await transaction.objectStore('settings').delete(overlayKey(jobId));
    await transaction.objectStore('settings').delete(versionsKey(jobId));
  });
}

const FIRST_RUN = 'first-run-jobs-stored';

/**
 * Stores the jobs of a first run, once: what the user has since deleted stays deleted, what is there is not
 * overwritten. Rejects with a `StoreFault`.
 */
export async function storeFirstRunJobs(database: Database, jobs: readonly Job[], savedAtMilliseconds: number): Promise<void> {
  await database.transact(['jobs', 'settings'], 'readwrite', async (transaction) => {
    const settings = transaction.objectStore('settings');
    if ((await settings.get(FIRST_RUN)) !== undefined) return;
    const store = transaction.objectStore('jobs');
    for (const job of jobs) if ((await store.getKey(job.id)) === undefined) await store.add(storedFrom(job, savedAtMilliseconds));
    await settings.put(true, FIRST_RUN);
  });
}

function fieldsOf(value: unknown): Partial<Record<keyof StoredJob, unknown>> {
  return typeof value === 'object' && value !== null ? value : {};
}
