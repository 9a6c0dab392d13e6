import type { Database } from '../database.ts';
import { overlayKey } from '../overlays.ts';
import type { BackupEntry } from './backup-line.ts';
import { isBackedUp, withoutSecret } from './backed-up-settings.ts';

const ROWS_AT_ONCE = 1000;

/** What a backup takes, counted first so that its progress can be told. */
export interface BackupCount {
  readonly jobs: number;
  readonly flights: number;
  readonly rows: number;
  readonly settings: number;
}

/** How much there is. Rejects with a `StoreFault`. */
export function countEverything(database: Database): Promise<BackupCount> {
  return database.transact(['jobs', 'flights', 'rows', 'settings'], 'readonly', async (transaction) => ({
    jobs: await transaction.objectStore('jobs').count(),
    flights: await transaction.objectStore('flights').count(),
    rows: await transaction.objectStore('rows').count(),
    settings: (await transaction.objectStore('settings').getAllKeys()).filter(isBackedUp).length,
  }));
}

/**
 * Everything stored, part after part, in an order that only depends on what is there: settings, jobs with their overlays,
 * each log with its flight after it. Damaged values go along as they are. A flight in progress is left out whole. One
 * part is held in memory at a time. Rejects with a `StoreFault`.
 */
export async function* readEverything(database: Database): AsyncGenerator<BackupEntry> {
  const keys = await database.transact(['settings'], 'readonly', (transaction) => transaction.objectStore('settings').getAllKeys());
  for (const key of keys.filter(isBackedUp)) {
    const value: unknown = await database.transact(['settings'], 'readonly', (transaction) => transaction.objectStore('settings').get(key));
    if (value !== undefined) yield { part: 'setting', key, value: withoutSecret(key, value) };
  }
  const jobIds = await database.transact(['jobs'], 'readonly', (transaction) => transaction.objectStore('jobs').getAllKeys());
  for (const jobId of jobIds) {
    const entry = await readJobPart(database, jobId);
    if (entry !== null) yield entry;
  }
  yield* readLogs(database);
}

/** A job as it is stored, with its overlay; null where it is gone. Rejects with a `StoreFault`. */
async function readJobPart(database: Database, jobId: string): Promise<BackupEntry | null> {
  const [job, overlay] = await database.transact(['jobs', 'settings'], 'readonly', async (transaction): Promise<[unknown, unknown]> => [
    await transaction.objectStore('jobs').get(jobId),
    await transaction.objectStore('settings').get(overlayKey(jobId)),
  ]);
  return job === undefined ? null : { part: 'job', key: jobId, value: { job, overlay: overlay ?? null } };
}

async function* readLogs(database: Database): AsyncGenerator<BackupEntry> {
  const flights = new Map<string, unknown>();
  await database.transact(['flights'], 'readonly', async (transaction) => {
    const store = transaction.objectStore('flights');
    const ids = await store.getAllKeys();
    const values = (await store.getAll()) as unknown[];
    for (const [index, id] of ids.entries()) flights.set(id, values[index]);
  });
  const inProgress = new Set([...flights].filter(([, value]) => isInProgress(value)).map(([id]) => id));
  const told = new Set<string>();
  let after: IDBKeyRange | null = null;
  for (;;) {
    const next = await nextLog(database, after);
    if (next === null) break;
    after = IDBKeyRange.lowerBound([next, Number.MAX_SAFE_INTEGER], true);
    if (inProgress.has(next)) continue;
    for (let from = -1; ;) {
      const range = IDBKeyRange.bound([next, from], [next, Number.MAX_SAFE_INTEGER], true);
      const rows = (await database.transact(['rows'], 'readonly', (transaction) => transaction.objectStore('rows').getAll(range, ROWS_AT_ONCE))) as unknown[];
      if (rows.length > 0) yield { part: 'rows', key: next, value: rows };
      const last = rows.at(-1);
      if (rows.length < ROWS_AT_ONCE || typeof last !== 'object' || last === null || !('sequence' in last)) break;
      from = Number(last.sequence);
    }
    if (flights.has(next)) yield { part: 'flight', key: next, value: flights.get(next) };
    told.add(next);
  }
  // Flights of which nothing was logged.
  for (const [id, value] of flights) if (!told.has(id) && !inProgress.has(id)) yield { part: 'flight', key: id, value };
}

/** The log whose rows come next; null after the last. */
function nextLog(database: Database, after: IDBKeyRange | null): Promise<string | null> {
  return database.transact(['rows'], 'readonly', async (transaction) => (await transaction.objectStore('rows').openKeyCursor(after))?.primaryKey[0] ?? null);
}

function isInProgress(value: unknown): boolean {
  return typeof value === 'object' && value !== null && 'endedAtMilliseconds' in value && value.endedAtMilliseconds === null;
}
