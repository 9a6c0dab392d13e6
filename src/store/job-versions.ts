import type { IDBPObjectStore } from 'idb';
import type { JobConflict } from '../core/job/merge-jobs.ts';
import type { Database } from './database.ts';
import type { QuillwindSchema } from './schema.ts';

/** Two versions of some fields of a job, both typed, of which a person chooses one. */
export interface JobVersion extends Omit<JobConflict, 'before'> {
  readonly atMilliseconds: number;
}

/** The oldest go first: nobody chooses among so many. */
const VERSIONS_KEPT = 50;

export function versionsKey(jobId: string): string {
  return `job-versions/${jobId}`;
}

type SettingsStore<Kind extends 'readonly' | 'readwrite'> = IDBPObjectStore<QuillwindSchema, ('jobs' | 'settings')[], 'settings', Kind>;

/** Keeps what could not be put together beside the job, within the transaction that stores it. */
export async function addVersions(
  settings: SettingsStore<'readwrite'>,
  jobId: string,
  conflicts: readonly JobConflict[],
  atMilliseconds: number,
): Promise<void> {
  const before = versionsFrom(await settings.get(versionsKey(jobId)));
  // A transaction that was done again brings the same ones.
  const known = new Set(before.map(marked));
  const fresh = conflicts.filter((conflict) => !known.has(marked(conflict))).map(({ at, ours, theirs }) => ({ at, ours, theirs, atMilliseconds }));
  await settings.put([...before, ...fresh].slice(-VERSIONS_KEPT), versionsKey(jobId));
}

/** What is kept beside a job, the oldest first. Rejects with a `StoreFault`. */
export async function readVersions(database: Database, jobId: string): Promise<readonly JobVersion[]> {
  return versionsFrom(await database.transact(['settings'], 'readonly', (transaction) => transaction.objectStore('settings').get(versionsKey(jobId))));
}

/** Drops one once a person has chosen; another tab may have done so. Rejects with a `StoreFault`. */
export async function dropVersion(database: Database, jobId: string, dropped: JobVersion): Promise<void> {
  await database.transact(
    ['settings'],
    'readwrite',
    async (transaction) => {
      const settings = transaction.objectStore('settings');
      const left = versionsFrom(await settings.get(versionsKey(jobId))).filter((version) => marked(version) !== marked(dropped));
      if (left.length === 0) await settings.delete(versionsKey(jobId));
      else await settings.put(left, versionsKey(jobId));
    },
    'any-tab',
  );
}

function marked({ at, ours, theirs }: Pick<JobVersion, 'at' | 'ours' | 'theirs'>): string {
  return JSON.stringify([at, ours, theirs]);
}

function versionsFrom(stored: unknown): readonly JobVersion[] {
  return Array.isArray(stored) ? stored.filter(isVersion) : [];
}

function isVersion(value: unknown): value is JobVersion {
  if (typeof value !== 'object' || value === null) return false;
  const { at, ours, theirs, atMilliseconds }: Partial<Record<keyof JobVersion, unknown>> = value;
  const isKey = (key: unknown): boolean => typeof key === 'string' || typeof key === 'number';
  return Array.isArray(at) && at.every(isKey) && isFields(ours) && isFields(theirs) && typeof atMilliseconds === 'number';
}

function isFields(value: unknown): boolean {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
