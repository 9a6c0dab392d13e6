import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { openDB } from 'idb';
import { beforeEach, describe, expect, it } from 'vitest';
import { DEMO_JOB } from '../../src/core/job/demo-job.ts';
import { createDatabase, type Database } from '../../src/store/database.ts';
import { deleteFlight, readFlightInProgress, readFlights, saveFlight } from '../../src/store/flights.ts';
import { openFlightLog } from '../../src/store/flight-log.ts';
import { deleteJob, readJobs, saveJob, storeFirstRunJobs } from '../../src/store/jobs.ts';
import { forgetMessages, putMessage, readMessages } from '../../src/store/outbox.ts';
import type { StoredFlight } from '../../src/store/schema.ts';

let database: Database;

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
  database = createDatabase();
});

async function putRaw(store: string, value: unknown): Promise<void> {
  await database.probe();
  const raw = await openDB('quillwind');
  await raw.put(store, value);
  raw.close();
}

const FLIGHT: StoredFlight = {
  id: 'flight-1',
  jobId: DEMO_JOB.id,
  name: DEMO_JOB.name,
  kind: 'rehearsal',
  startedAtMilliseconds: 1000,
  endedAtMilliseconds: null,
  jobFileText: '{}',
  setupText: '{}',
};

describe('stored jobs', () => {
  it('come back as they were saved, the last changed first', async () => {
    await saveJob(database, DEMO_JOB, null, 1);
    const other = { ...DEMO_JOB, id: 'other', text: 'HI' };
    await saveJob(database, other, null, 3);
    await saveJob(database, { ...DEMO_JOB, text: 'SUN' }, DEMO_JOB, 2);
    expect(await readJobs(createDatabase())).toEqual({ jobs: [other, { ...DEMO_JOB, text: 'SUN' }], damaged: [] });
  });

  it('are reported by name when they are damaged, and left as they are', async () => {
    await saveJob(database, DEMO_JOB, null, 1);
    await putRaw('jobs', { id: 'torn', name: 'Harbour night', savedAtMilliseconds: 2, fileText: '{"format":"quillwind-job","ver' });
    await putRaw('jobs', { id: 'bare' });
    await putRaw('jobs', { id: 'swapped', name: 'Swapped', savedAtMilliseconds: 2, fileText: JSON.stringify(DEMO_JOB) });
    const { jobs, damaged } = await readJobs(database);
    expect(jobs).toEqual([DEMO_JOB]);
    expect(damaged.map(({ id, name }) => [id, name])).toEqual([
      ['bare', 'bare'],
      ['swapped', 'Swapped'],
      ['torn', 'Harbour night'],
    ]);
    expect(damaged[2]?.reason).toContain('not whole JSON');
    const raw = await openDB('quillwind');
    expect(await raw.count('jobs')).toBe(4);
    raw.close();
  });

  it('are removed', async () => {
    await saveJob(database, DEMO_JOB, null, 1);
    await deleteJob(database, DEMO_JOB.id);
    await deleteJob(database, 'never there');
    expect((await readJobs(database)).jobs).toEqual([]);
  });

  it('are stored at the first run only, and overwrite nothing', async () => {
    const own = { ...DEMO_JOB, text: 'MINE' };
    await saveJob(database, own, null, 1);
    await storeFirstRunJobs(database, [DEMO_JOB], 2);
    expect((await readJobs(database)).jobs).toEqual([own]);
    await deleteJob(database, DEMO_JOB.id);
    await storeFirstRunJobs(database, [DEMO_JOB], 3);
    expect((await readJobs(database)).jobs).toEqual([]);
  });
});

describe('stored flights', () => {
  it('come back, the newest first, and the one in progress is found', async () => {
    await saveFlight(database, FLIGHT);
    await saveFlight(database, { ...FLIGHT, id: 'flight-2', startedAtMilliseconds: 2000, endedAtMilliseconds: 3000 });
    expect((await readFlights(database)).flights.map(({ id }) => id)).toEqual(['flight-2', 'flight-1']);
    expect((await readFlightInProgress(database))?.id).toBe('flight-1');
    await saveFlight(database, { ...FLIGHT, endedAtMilliseconds: 4000 });
    expect(await readFlightInProgress(database)).toBeNull();
  });

  it('are reported by name when they are damaged', async () => {
    await saveFlight(database, FLIGHT);
    await putRaw('flights', { ...FLIGHT, id: 'torn', name: 'Evening', startedAtMilliseconds: 'noon' });
    expect(await readFlights(database)).toEqual({ flights: [FLIGHT], damaged: [{ id: 'torn', name: 'Evening' }] });
  });

  it('are deleted with their log and with no other', async () => {
    await saveFlight(database, FLIGHT);
    for (const id of ['flight-1', 'flight-10']) {
      const { log } = await openFlightLog(database, id);
      log.append({ monotonicSeconds: 0, wallMilliseconds: 0, event: id });
      await log.close();
    }
    await deleteFlight(database, 'flight-1');
    expect((await readFlights(database)).flights).toEqual([]);
    expect((await openFlightLog(database, 'flight-1')).reading.rows).toEqual([]);
    expect((await openFlightLog(database, 'flight-10')).reading.rows).toHaveLength(1);
  });
});

describe('outbox', () => {
  it('keeps each message once, until it is forgotten', async () => {
    const message = { bootId: 'boot', sequence: 1, topic: 't', payloadText: '{}', queuedAtMilliseconds: 1 };
    await putMessage(database, message);
    await putMessage(database, { ...message, payloadText: 'again' });
    await putMessage(database, { ...message, sequence: 0 });
    expect((await readMessages(createDatabase())).map(({ sequence, payloadText }) => [sequence, payloadText])).toEqual([
      [0, '{}'],
      [1, '{}'],
    ]);
    await forgetMessages(database, [message]);
    await forgetMessages(database, [message]);
    expect(await readMessages(database)).toHaveLength(1);
  });
});
