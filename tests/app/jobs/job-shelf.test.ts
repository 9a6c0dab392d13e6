import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { fileNameFrom } from '../../../src/app/hand-over-file.ts';
import { createFlightWatch } from '../../../src/app/flight-watch.ts';
import type { JobFile } from '../../../src/app/jobs/import-job-files.ts';
import { createJobShelf } from '../../../src/app/jobs/job-shelf.ts';
import type { JobShelf } from '../../../src/app/jobs/shelf-types.ts';
import { copiedJob, newJob } from '../../../src/app/jobs/new-job.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import { parseJob } from '../../../src/core/job/parse-job.ts';
import { writeJob } from '../../../src/core/job/write-job.ts';
import { createDatabase, type Database } from '../../../src/store/database.ts';
import { saveFlight } from '../../../src/store/flights.ts';
import { readOverlay, saveOverlay } from '../../../src/store/overlays.ts';
import { StoreFault } from '../../../src/store/store-fault.ts';

let database: Database;
let shelf: JobShelf;
let nowMilliseconds = 0;

beforeEach(async () => {
  globalThis.indexedDB = new IDBFactory();
  database = createDatabase();
  nowMilliseconds = Date.UTC(2027, 0, 1, 12, 30);
  shelf = createJobShelf(database, () => (nowMilliseconds += 1));
  await shelf.refresh();
});

const file = (name: string, content: string): JobFile => new File([content], name);
const names = (): string[] => (shelf.state.value.kind === 'ready' ? shelf.state.value.jobs.map(({ name }) => name) : [shelf.state.value.kind]);

describe('job shelf', () => {
  it('holds the demo job at first', () => {
    expect(shelf.find('lake-ondine')).toEqual(DEMO_JOB);
    expect(shelf.find('unheard-of')).toBeNull();
  });

  it('shows an edited job at once, first, and keeps it', async () => {
    await shelf.create();
    await shelf.save({ ...DEMO_JOB, text: 'SUN' });
    expect(names()[0]).toBe(DEMO_JOB.name);
    expect(shelf.find('lake-ondine')?.text).toBe('SUN');
    await shelf.refresh();
    expect(shelf.find('lake-ondine')?.text).toBe('SUN');
    expect(names()).toHaveLength(2);
  });

  it('brings back what was removed last, until the notice is dismissed', async () => {
    await shelf.remove('lake-ondine');
    expect(shelf.notice.value).toEqual({ kind: 'removed', name: DEMO_JOB.name });
    await shelf.undoRemove();
    expect(shelf.find('lake-ondine')).toEqual(DEMO_JOB);
    await shelf.remove('lake-ondine');
    shelf.dismissNotice();
    await shelf.undoRemove();
    expect(names()).toEqual([]);
  });

  it('brings a removed job back with its overlay', async () => {
    const overlay = { fileName: 'areas.geojson', text: '{"type":"FeatureCollection","features":[]}' };
    await saveOverlay(database, 'lake-ondine', overlay);
    await shelf.remove('lake-ondine');
    expect(await readOverlay(database, 'lake-ondine')).toBeNull();
    await shelf.undoRemove();
    expect(await readOverlay(database, 'lake-ondine')).toEqual(overlay);
  });

  it('refuses a file that cannot be read in time, within two seconds', async () => {
    const stuck: JobFile = { name: 'cloud.json', size: 10, arrayBuffer: () => new Promise(() => {}) };
    const asked = vi.spyOn(globalThis, 'setTimeout');
    await shelf.importFiles([stuck]);
    // What it waits by its own clock: a machine that stands still does not count.
    expect(Math.max(...asked.mock.calls.map(([, milliseconds]) => milliseconds ?? 0))).toBeLessThan(2000);
    asked.mockRestore();
    expect(shelf.notice.value).toMatchObject({ kind: 'refused', refused: [{ fileName: 'cloud.json' }] });
    expect(names()).toEqual([DEMO_JOB.name]);
  });

  it('reads no byte of a file over 1 MB', async () => {
    let read = false;
    await shelf.importFiles([{ name: 'huge.json', size: 1_000_001, arrayBuffer: () => ((read = true), Promise.resolve(new ArrayBuffer(0))) }]);
    expect(read).toBe(false);
    expect(shelf.notice.value).toMatchObject({ kind: 'refused' });
  });

  it('takes all files or none, and the same job twice in one go once', async () => {
    const spring = writeJob({ ...DEMO_JOB, id: 'spring', name: 'Spring' });
    await shelf.importFiles([file('a.json', spring), file('b.json', '{')]);
    expect(names()).toEqual([DEMO_JOB.name]);
    await shelf.importFiles([file('a.json', spring), file('b.json', spring)]);
    expect(names().sort()).toEqual([DEMO_JOB.name, 'Spring']);
  });

  it('refuses aloud what it has no code for, and does it at the next press', async () => {
    vi.doMock('../../../src/app/jobs/shelf-actions.ts', () => {
      throw new TypeError('error loading dynamically imported module');
    });
    const other = createJobShelf(createDatabase(), () => 0);
    await other.refresh();
    expect(await other.duplicate('lake-ondine')).toBeNull();
    expect(other.notice.value).toMatchObject({ kind: 'failed', reason: expect.stringContaining('Press again') as string });
    vi.doUnmock('../../../src/app/jobs/shelf-actions.ts');
    expect(await other.duplicate('lake-ondine')).not.toBeNull();
  });

  it('says that it only reads, and changes nothing', async () => {
    const reader = createJobShelf(createDatabase({ permitWriting: () => Promise.reject(new StoreFault('read-only')) }), () => 0);
    await reader.refresh();
    expect(reader.find('lake-ondine')).toEqual(DEMO_JOB);
    expect(await reader.create()).toBeNull();
    expect(reader.notice.value).toMatchObject({ kind: 'failed', reason: expect.stringContaining('another tab') as string });
    await shelf.refresh();
    expect(names()).toEqual([DEMO_JOB.name]);
  });
});

describe('new jobs', () => {
  it('are jobs that the parser takes, a week ahead at the full hour', () => {
    const job = newJob(nowMilliseconds, 'America/Recife');
    expect(parseJob(writeJob(job))).toEqual({ ok: true, value: job });
    expect(job.readTime).toBe('2027-01-08T13:00:00.000Z');
  });

  it('count their copies and keep within 60 characters', () => {
    const copy = copiedJob({ ...DEMO_JOB, name: 'Fair' });
    expect(copy.name).toBe('Fair (copy)');
    expect(copiedJob(copy).name).toBe('Fair (copy 2)');
    expect(copiedJob(copiedJob(copy)).name).toBe('Fair (copy 3)');
    expect(copy.id).not.toBe(DEMO_JOB.id);
    const closed = { ...DEMO_JOB.booking, client: 'Regatta', sentTime: '2027-06-20T08:00:00Z', paidTime: '2027-06-21T08:00:00Z' };
    expect(copiedJob({ ...DEMO_JOB, booking: closed }).booking).toEqual({
      ...DEMO_JOB.booking,
      client: 'Regatta',
      sentTime: null,
      paidTime: null,
      outcomes: [],
    });
    expect([...copiedJob({ ...DEMO_JOB, name: '𝄞'.repeat(60) }).name]).toHaveLength(60);
  });
});

describe('file names', () => {
  it.each([
    ['Été à l’Ondine', 'ete-a-l-ondine.json'],
    ['../../etc/passwd', 'etc-passwd.json'],
    ['空', 'quillwind.json'],
    ['x'.repeat(90), `${'x'.repeat(48)}.json`],
  ])('of %j are %j', (title, name) => {
    expect(fileNameFrom(title, 'json')).toBe(name);
  });
});

describe('flight watch', () => {
  const flight = { id: 'f', jobId: 'lake-ondine', name: 'F', kind: 'flight', endedAtMilliseconds: null, jobFileText: '{}', setupText: '{}' } as const;

  it('counts a flight as in progress until the store has said that there is none', async () => {
    const watch = createFlightWatch(database, () => nowMilliseconds);
    expect(watch.inProgress.value).toBe(true);
    await watch.refresh();
    expect(watch.inProgress.value).toBe(false);
  });

  it('knows a flight here and one left open in the store, for twelve hours', async () => {
    const watch = createFlightWatch(database, () => nowMilliseconds);
    await watch.refresh();
    const end = watch.begin();
    expect(watch.inProgress.value).toBe(true);
    end();
    end();
    expect(watch.inProgress.value).toBe(false);
    await saveFlight(database, { ...flight, startedAtMilliseconds: nowMilliseconds - 11 * 3_600_000 });
    await watch.refresh();
    expect(watch.inProgress.value).toBe(true);
    await saveFlight(database, { ...flight, startedAtMilliseconds: nowMilliseconds - 13 * 3_600_000 });
    await watch.refresh();
    expect(watch.inProgress.value).toBe(false);
    expect(watch.stored.value?.id).toBe('f');
  });
});
