import { observerEntryFromValue } from '../core/wire/parse-observer-log.ts';
import type { ObserverEntry, ObserverLog } from '../core/wire/observer-log.ts';
import type { Database } from './database.ts';
import { logRowFromStored, storedFromLogRow } from './read-row.ts';

/** Everything written down of one job, by this device's observer and by others whose logs were imported. */
export interface ObserverLogsReading {
  readonly logs: readonly ObserverLog[];
  /** Entries that cannot be read any more, over all logs. */
  readonly damagedCount: number;
  /** By observer: the first number that no entry has, whether it can be read or not. */
  readonly nextSequences: ReadonlyMap<string, number>;
}

/** Rows of a log stand beside flights' rows, under a key that no flight has. Row 0 is the head. */
const keyOf = (jobId: string, observerId: string): string => `observed.${jobId}.${observerId}`;

/** Every log of a job. Rejects with a `StoreFault`. */
export async function readObserverLogs(database: Database, jobId: string): Promise<ObserverLogsReading> {
  const range = IDBKeyRange.bound([keyOf(jobId, ''), 0], [keyOf(jobId, '\uffff'), 0]);
  const values = await database.transact(['rows'], 'readonly', (transaction) => transaction.objectStore('rows').getAll(range) as Promise<unknown[]>);
  const logs = new Map<string, ObserverLog & { entries: ObserverEntry[] }>();
  const nextSequences = new Map<string, number>();
  let damagedCount = 0;
  for (const value of values) {
    const row = logRowFromStored(value);
    const key = typeof value === 'object' && value !== null && 'flightId' in value ? String(value.flightId) : '';
    const head = row?.sequence === 0 ? headFrom(row.event) : null;
    if (head !== null) logs.set(key, { ...head, entries: [] });
    // Row 1 holds entry 0; the keys are read even where the rest is damaged.
    const own = logs.get(key);
    if (own !== undefined && typeof value === 'object' && value !== null && 'sequence' in value) nextSequences.set(own.observerId, Number(value.sequence));
    const entry = row === null || head !== null ? null : observerEntryFromValue(row.event);
    if (entry !== null && own !== undefined) own.entries.push(entry);
    else if (head === null) damagedCount += 1;
  }
  return { logs: [...logs.values()], damagedCount, nextSequences };
}

/**
 * Stores entries of a log beside those that are there, all or none; an entry that is there already is left alone.
 * Rejects with a `StoreFault`.
 */
export async function addObserverEntries(database: Database, log: ObserverLog): Promise<void> {
  const key = keyOf(log.jobId, log.observerId);
  const { entries, ...head } = log;
  const row = (sequence: number, wallMilliseconds: number, event: unknown) => storedFromLogRow(key, { sequence, monotonicSeconds: 0, wallMilliseconds, event });
  const rows = [row(0, entries[0]?.atMilliseconds ?? 0, head), ...entries.map((entry) => row(entry.sequence + 1, entry.atMilliseconds, entry))];
  await database.transact(['rows'], 'readwrite', async (transaction) => {
    const store = transaction.objectStore('rows');
    await Promise.all(
      rows.map(async (each) => {
        if ((await store.get([each.flightId, each.sequence])) === undefined) await store.add(each);
      }),
    );
  });
}

function headFrom(event: unknown): Omit<ObserverLog, 'entries'> | null {
  if (typeof event !== 'object' || event === null) return null;
  const { jobId, jobDigest, observerId, observerName } = event as Partial<Record<keyof ObserverLog, unknown>>;
  if (typeof jobId !== 'string' || typeof observerId !== 'string' || typeof observerName !== 'string') return null;
  return { format: 'quillwind-observer', version: 1, jobId, jobDigest: typeof jobDigest === 'string' ? jobDigest : null, observerId, observerName };
}
