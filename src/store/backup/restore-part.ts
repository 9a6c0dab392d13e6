import { parseJob } from '../../core/job/parse-job.ts';
import { writeJob } from '../../core/job/write-job.ts';
import type { Database } from '../database.ts';
import { isFlight } from '../flights.ts';
import { overlayKey } from '../overlays.ts';
import { logRowFromStored } from '../read-row.ts';
import { fnv1a } from '../row-checksum.ts';
import type { StoredJob, StoredRow } from '../schema.ts';
import type { BackupEntry } from './backup-line.ts';
import { isBackedUp, withoutSecret } from './backed-up-settings.ts';
import { isSame, mergedSetting } from './merge-setting.ts';

/** What became of one part of a backup. Nothing that is here is ever overwritten. */
export type Restored =
  | { readonly kind: 'added' }
  /** It was here already, the same. */
  | { readonly kind: 'there' }
  /** Another of the same id is here: this one was put beside it under a new id. */
  | { readonly kind: 'copied'; readonly name: string }
  /** Here it is different, and stays. */
  | { readonly kind: 'kept-here'; readonly name: string }
  | { readonly kind: 'refused'; readonly name: string; readonly reason: string };

/** Puts one part beside what is stored, whole or not at all. Rejects with a `StoreFault`. */
export function restorePart(database: Database, entry: BackupEntry, nowMilliseconds: number): Promise<Restored> {
  switch (entry.part) {
    case 'job':
      return restoreJob(database, entry, nowMilliseconds);
    case 'rows':
      return restoreRows(database, entry);
    case 'flight':
      return restoreFlightPart(database, entry);
    case 'setting':
      return restoreSetting(database, entry);
  }
}

async function restoreJob(database: Database, { key, value }: BackupEntry, nowMilliseconds: number): Promise<Restored> {
  const { job: stored, overlay } = fieldsOf(value);
  const { fileText, name, savedAtMilliseconds } = fieldsOf(stored);
  const shown = typeof name === 'string' ? name : key;
  const reading = parseJob(typeof fileText === 'string' ? fileText : '');
  if (!reading.ok || reading.value.id !== key)
    return { kind: 'refused', name: shown, reason: reading.ok ? 'It is kept under another job\u2019s id.' : reading.reason };
  const text = writeJob(reading.value);
  const { text: overlayText, fileName } = fieldsOf(overlay);
  const ownOverlay = typeof overlayText === 'string' ? { fileName: typeof fileName === 'string' ? fileName : '', text: overlayText } : null;
  return database.transact(['jobs', 'settings'], 'readwrite', async (transaction): Promise<Restored> => {
    const jobs = transaction.objectStore('jobs');
    const settings = transaction.objectStore('settings');
    const put = async (id: string, asText: string, asName: string): Promise<void> => {
      const saved = typeof savedAtMilliseconds === 'number' && Number.isFinite(savedAtMilliseconds) ? savedAtMilliseconds : nowMilliseconds;
      await jobs.add({ id, name: asName, savedAtMilliseconds: saved, fileText: asText });
      if (ownOverlay !== null && (await settings.getKey(overlayKey(id))) === undefined) await settings.add(ownOverlay, overlayKey(id));
    };
    const here = fieldsOf(await jobs.get(key)) as Partial<StoredJob>;
    if (here.fileText === undefined) {
      await put(key, text, reading.value.name);
      return { kind: 'added' };
    }
    const there = fieldsOf(await settings.get(overlayKey(key)));
    if (here.fileText === text && (ownOverlay === null || there['text'] === ownOverlay.text)) return { kind: 'there' };
    if (here.fileText === text && there['text'] === undefined && ownOverlay !== null) {
      await settings.add(ownOverlay, overlayKey(key));
      return { kind: 'added' };
    }
    // Named by what it holds, so that the same backup restored twice finds its own copy.
    const id = `r${fnv1a(text + (ownOverlay?.text ?? '')).toString(36)}-${key}`.slice(0, 32);
    if ((await jobs.getKey(id)) !== undefined) return { kind: 'there' };
    const copy = { ...reading.value, id, name: `${[...reading.value.name].slice(0, 46).join('')} (from backup)` };
    await put(id, writeJob(copy), copy.name);
    return { kind: 'copied', name: copy.name };
  });
}

async function restoreRows(database: Database, { key, value }: BackupEntry): Promise<Restored> {
  const name = `log ${key}`;
  if (!Array.isArray(value) || value.length > 10_000) return { kind: 'refused', name, reason: 'It is not a list of rows.' };
  const rows = value.filter((row): row is StoredRow => fieldsOf(row)['flightId'] === key && logRowFromStored(row) !== null);
  const [first] = rows;
  const last = rows.at(-1);
  if (first === undefined || last === undefined) return { kind: 'refused', name, reason: 'None of its rows can be read.' };
  const added = await database.transact(['rows'], 'readwrite', async (transaction) => {
    const store = transaction.objectStore('rows');
    const range = IDBKeyRange.bound([key, first.sequence], [key, last.sequence]);
    const there = new Set((await store.getAllKeys(range)).map(([, sequence]) => sequence));
    const fresh = rows.filter(({ sequence }) => !there.has(sequence));
    await Promise.all(
      fresh.map(({ flightId, sequence, monotonicSeconds, wallMilliseconds, eventText, checksum }) =>
        store.add({ flightId, sequence, monotonicSeconds, wallMilliseconds, eventText, checksum }),
      ),
    );
    return fresh.length;
  });
  if (rows.length < value.length)
    return { kind: 'refused', name, reason: `${value.length - rows.length} of ${value.length} rows are damaged; the others were taken.` };
  return { kind: added === 0 ? 'there' : 'added' };
}

async function restoreFlightPart(database: Database, { key, value }: BackupEntry): Promise<Restored> {
  const { name } = fieldsOf(value);
  const shown = typeof name === 'string' ? name : key;
  if (!isFlight(value) || value.id !== key) return { kind: 'refused', name: shown, reason: 'The flight cannot be read.' };
  const { id, jobId, name: own, kind, startedAtMilliseconds, endedAtMilliseconds, jobFileText, setupText } = value;
  if (endedAtMilliseconds === null) return { kind: 'refused', name: shown, reason: 'The flight was still going on.' };
  return database.transact(['flights'], 'readwrite', async (transaction): Promise<Restored> => {
    const store = transaction.objectStore('flights');
    const here: unknown = await store.get(id);
    if (here !== undefined) return isSame(here, value) ? { kind: 'there' } : { kind: 'kept-here', name: shown };
    await store.add({ id, jobId, name: own, kind, startedAtMilliseconds, endedAtMilliseconds, jobFileText, setupText });
    return { kind: 'added' };
  });
}

async function restoreSetting(database: Database, { key, value }: BackupEntry): Promise<Restored> {
  if (!isBackedUp(key)) return { kind: 'refused', name: `setting ${key.slice(0, 40)}`, reason: 'No backup holds such a setting.' };
  const wanted = withoutSecret(key, value);
  return database.transact(['settings'], 'readwrite', async (transaction): Promise<Restored> => {
    const settings = transaction.objectStore('settings');
    const here: unknown = await settings.get(key);
    if (here === undefined) {
      await settings.add(wanted, key);
      return { kind: 'added' };
    }
    if (isSame(key === 'link' ? withoutSecret(key, here) : here, wanted)) return { kind: 'there' };
    const merged = mergedSetting(here, wanted);
    if (merged === here) return { kind: 'kept-here', name: `setting ${key.split('/')[0] ?? key}` };
    await settings.put(merged, key);
    return { kind: 'added' };
  });
}

function fieldsOf(value: unknown): Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null ? (value as Readonly<Record<string, unknown>>) : {};
}
