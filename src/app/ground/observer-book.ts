import { batch, type ReadonlySignal, signal } from '@preact/signals';
import { cleanName } from '../../core/text/clean-name.ts';
import { mergedObserverLogs, type ObserverEntry, type ObserverFact, type ObserverLog } from '../../core/wire/observer-log.ts';
import { OBSERVER_LIMITS, SINCE_DATUM_LIMIT_SECONDS } from '../../core/wire/observer-log-schema.ts';
import { parseObserverLog } from '../../core/wire/parse-observer-log.ts';
import type { Database } from '../../store/database.ts';
import { addObserverEntries, readObserverLogs } from '../../store/observer-logs.ts';
import { readSetting, saveSetting } from '../../store/settings.ts';
import { storeFaultFrom } from '../../store/store-fault.ts';
import { newId } from '../new-id.ts';

/** What the observer of this device writes down of one job, and what others did. */
export interface ObserverBook {
  /** Own log; null until the store has been read. */
  readonly own: ReadonlySignal<ObserverLog | null>;
  /** Logs of others, imported. */
  readonly others: ReadonlySignal<readonly ObserverLog[]>;
  readonly observerName: ReadonlySignal<string>;
  setName(name: string): void;
  /** Why what was written is not saved; null while it is. It waits in memory and is tried again. */
  readonly notSaved: ReadonlySignal<string | null>;
  readonly damagedCount: ReadonlySignal<number>;
  write(fact: ObserverFact, sinceDatumSeconds: number | null): void;
  /** Takes a log's file; null when it was taken, or why not in words. */
  importFile(file: Pick<File, 'name' | 'size' | 'text'>): Promise<string | null>;
  end(): void;
}

const SETTING = 'observer';
const RETRY_MILLISECONDS = 2000;
const FILE_LIMIT_BYTES = 1_000_000;

/** The book of a job; it begins to read at once, and what is written before it has read is kept. */
export function openObserverBook(database: Database, jobId: string, digest: Promise<string | null>, nowMilliseconds: () => number): ObserverBook {
  const own = signal<ObserverLog | null>(null);
  const others = signal<readonly ObserverLog[]>([]);
  const observerName = signal('');
  const notSaved = signal<string | null>(null);
  const damagedCount = signal(0);
  const early: { readonly fact: ObserverFact; readonly sinceDatumSeconds: number | null; readonly atMilliseconds: number }[] = [];
  /** What is stored has not been read yet. */
  let unread = true;
  let savedCount = 0;
  let nextSequence = 0;
  let saving = false;
  let retry: ReturnType<typeof setTimeout> | undefined;
  let ended = false;

  async function open(): Promise<void> {
    const observer = await readObserver(database);
    observerName.value = observer.name;
    const empty: ObserverLog = {
      format: 'quillwind-observer',
      version: 1,
      jobId,
      jobDigest: await digest.catch(() => null),
      observerId: observer.id,
      observerName: observer.name,
      entries: [],
    };
    try {
      await read(empty);
    } catch (error) {
      notSaved.value = storeFaultFrom(error).message;
      own.value = empty;
      retry = setTimeout(() => void save(), RETRY_MILLISECONDS);
    }
    for (const { fact, sinceDatumSeconds, atMilliseconds } of early.splice(0)) add(fact, sinceDatumSeconds, atMilliseconds);
  }

  /** Takes what is stored; what was written while it could not be read comes after it, under the numbers that are free. */
  async function read(written: ObserverLog): Promise<void> {
    const { observerId } = written;
    const reading = await readObserverLogs(database, jobId);
    const stored = reading.logs.find((log) => log.observerId === observerId);
    // An entry that cannot be read any more keeps its number: under it a new one would not be stored.
    const free = Math.max((stored?.entries.at(-1)?.sequence ?? -1) + 1, reading.nextSequences.get(observerId) ?? 0);
    const after = (own.peek() ?? written).entries.map((entry): ObserverEntry => {
      const sequence = free + entry.sequence;
      return entry.kind === 'withdrawn' ? { ...entry, sequence, withdrawnSequence: free + entry.withdrawnSequence } : { ...entry, sequence };
    });
    batch(() => {
      damagedCount.value = reading.damagedCount;
      others.value = reading.logs.filter((log) => log.observerId !== observerId);
      savedCount = stored?.entries.length ?? 0;
      nextSequence = free + after.length;
      unread = false;
      const { observerName: name } = own.peek() ?? written;
      own.value = { ...(stored ?? written), ...(name === '' ? {} : { observerName: name }), entries: [...(stored?.entries ?? []), ...after] };
    });
  }

  function add(fact: ObserverFact, sinceDatumSeconds: number | null, atMilliseconds: number): void {
    const log = own.value;
    if (log === null || log.entries.length >= OBSERVER_LIMITS.entries) return;
    const sequence = nextSequence;
    nextSequence += 1;
    const entry: ObserverEntry = {
      sequence,
      atMilliseconds: Math.round(atMilliseconds),
      // What is further off could not be read again; it stands by the clock alone.
      sinceDatumSeconds: sinceDatumSeconds === null || Math.abs(sinceDatumSeconds) > SINCE_DATUM_LIMIT_SECONDS ? null : Math.round(sinceDatumSeconds * 10) / 10,
      ...fact,
    };
    own.value = { ...log, entries: [...log.entries, entry] };
    void save();
  }

  async function save(): Promise<void> {
    if (saving || ended) return;
    saving = true;
    clearTimeout(retry);
    try {
      const before = own.peek();
      if (unread && before !== null) await read(before);
      for (let log = own.peek(); log !== null && savedCount < log.entries.length; log = own.peek()) {
        const unsaved = log.entries.slice(savedCount);
        await addObserverEntries(database, { ...log, entries: unsaved });
        savedCount += unsaved.length;
      }
      notSaved.value = null;
    } catch (error) {
      notSaved.value = storeFaultFrom(error).message;
      retry = setTimeout(() => void save(), RETRY_MILLISECONDS);
    } finally {
      saving = false;
    }
  }

  void open();
  return {
    own,
    others,
    observerName,
    notSaved,
    damagedCount,
    setName(name) {
      observerName.value = cleanName(name);
      const log = own.peek();
      if (log !== null) own.value = { ...log, observerName: observerName.value };
      if (log !== null) saveSetting(database, SETTING, { id: log.observerId, name: observerName.value }).catch(() => {});
    },
    write(fact, sinceDatumSeconds) {
      const atMilliseconds = nowMilliseconds();
      if (own.peek() === null) early.push({ fact, sinceDatumSeconds, atMilliseconds });
      else add(fact, sinceDatumSeconds, atMilliseconds);
    },
    async importFile(file) {
      if (file.size > FILE_LIMIT_BYTES) return 'This file is larger than 1 MB, far more than a log needs. It was not opened.';
      const reading = parseObserverLog(await file.text().catch(() => null));
      if (!reading.ok) return reading.reason;
      const log = reading.value;
      if (log.jobId !== jobId) return 'This log was written for another job. Open that job\u2019s Ground or Debrief screen and import it there.';
      if (log.observerId === own.peek()?.observerId) return 'This is this device\u2019s own log; it is here already.';
      try {
        await addObserverEntries(database, log);
      } catch (error) {
        return storeFaultFrom(error).message;
      }
      const known = others.peek().find(({ observerId }) => observerId === log.observerId);
      const merged = known === undefined ? log : mergedObserverLogs(known, log);
      others.value = [...others.peek().filter(({ observerId }) => observerId !== log.observerId), merged];
      return null;
    },
    end() {
      void save();
      ended = true;
      clearTimeout(retry);
    },
  };
}

/** Who observes on this device: an id made once, and a name given later. */
async function readObserver(database: Database): Promise<{ readonly id: string; readonly name: string }> {
  const stored = await readSetting(database, SETTING).catch(() => null);
  if (typeof stored === 'object' && stored !== null && 'id' in stored && typeof stored.id === 'string') {
    return { id: stored.id, name: 'name' in stored && typeof stored.name === 'string' ? stored.name : '' };
  }
  const made = { id: newId(), name: '' };
  await saveSetting(database, SETTING, made).catch(() => {});
  return made;
}
