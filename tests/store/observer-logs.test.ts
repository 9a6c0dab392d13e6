import 'fake-indexeddb/auto';
import { beforeEach, describe, expect, it } from 'vitest';
import type { ObserverEntry, ObserverLog } from '../../src/core/wire/observer-log.ts';
import { createDatabase, type Database } from '../../src/store/database.ts';
import { readFlights } from '../../src/store/flights.ts';
import { addObserverEntries, readObserverLogs } from '../../src/store/observer-logs.ts';

let database: Database;
let count = 0;
beforeEach(() => {
  database = createDatabase({ name: `observer-${(count += 1)}` });
});

const note = (sequence: number, text = `note ${sequence}`): ObserverEntry => ({
  sequence,
  atMilliseconds: 1_800_000_000_000 + sequence,
  sinceDatumSeconds: null,
  kind: 'noted',
  text,
});
const log = (observerId: string, entries: readonly ObserverEntry[], jobId = 'job'): ObserverLog => ({
  format: 'quillwind-observer',
  version: 1,
  jobId,
  jobDigest: null,
  observerId,
  observerName: 'Pier',
  entries,
});

describe('stored observer logs', () => {
  it('are what was added, one by one or all at once, each entry once', async () => {
    await addObserverEntries(database, log('a', [note(0)]));
    await addObserverEntries(database, log('a', [note(1)]));
    await addObserverEntries(database, log('a', [note(0), note(1), note(2)]));
    await addObserverEntries(database, log('b', [note(0)]));
    expect((await readObserverLogs(database, 'job')).logs).toEqual([log('a', [note(0), note(1), note(2)]), log('b', [note(0)])]);
  });

  it('never change what is there', async () => {
    await addObserverEntries(database, log('a', [note(0, 'first')]));
    await addObserverEntries(database, log('a', [note(0, 'second')]));
    expect((await readObserverLogs(database, 'job')).logs[0]?.entries).toEqual([note(0, 'first')]);
  });

  it('belong to their job alone, and are no flights', async () => {
    await addObserverEntries(database, log('a', [note(0)], 'job'));
    await addObserverEntries(database, log('a', [note(0)], 'job2'));
    await addObserverEntries(database, log('a', [note(0)], 'jo'));
    expect((await readObserverLogs(database, 'job')).logs).toHaveLength(1);
    expect((await readFlights(database)).flights).toEqual([]);
  });

  it('count what is damaged', async () => {
    await addObserverEntries(database, log('a', [note(0), note(1)]));
    await database.transact(['rows'], 'readwrite', async (transaction) => {
      const store = transaction.objectStore('rows');
      const row = await store.get(['observed.job.a', 1]);
      if (row !== undefined) await store.put({ ...row, eventText: row.eventText.replace('note 0', 'note X') });
    });
    expect(await readObserverLogs(database, 'job')).toEqual({ logs: [log('a', [note(1)])], damagedCount: 1, nextSequences: new Map([['a', 2]]) });
  });
});
