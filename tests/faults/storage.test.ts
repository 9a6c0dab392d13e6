import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { createJobShelf } from '../../src/app/jobs/job-shelf.ts';
import { DEMO_JOB } from '../../src/core/job/demo-job.ts';
import { writeJob } from '../../src/core/job/write-job.ts';
import { createDatabase } from '../../src/store/database.ts';
import { openFlightLog } from '../../src/store/flight-log.ts';
import { readJobs, saveJob } from '../../src/store/jobs.ts';
import { nthOperationFails } from './nth-operation.ts';

const ROWS = 12;
const rowAt = (n: number) => ({ monotonicSeconds: n, wallMilliseconds: 1_800_000_000_000 + n * 1000, event: { kind: 'clockAdvanced', n } });

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
});
afterEach(() => {
  vi.restoreAllMocks();
});

async function rowsOnDisk(): Promise<number[]> {
  return (await openFlightLog(createDatabase(), 'flight-1')).reading.rows.map(({ event }) => (event as { n: number }).n);
}

/** A flight log from its opening to its last row; the rows counted as saved are checked at every step. */
async function logged(): Promise<void> {
  const { log } = await openFlightLog(createDatabase({ limitSeconds: 0.2 }), 'flight-1');
  for (let n = 0; n < ROWS; n += 1) {
    log.append(rowAt(n));
    if (n % 3 === 2) await log.flushed();
  }
  await log.close();
}

describe('the nth operation of the database', () => {
  it('fails once, whichever it is: no row is lost and none doubled', async () => {
    const whole = nthOperationFails({ nth: Number.POSITIVE_INFINITY, forEver: false });
    await logged();
    const operations = whole.count();
    expect(operations).toBeGreaterThan(20);
    const struck = new Set<string>();
    for (let nth = 1; nth <= operations; nth += 1) {
      vi.restoreAllMocks();
      globalThis.indexedDB = new IDBFactory();
      const faults = nthOperationFails({ nth, forEver: false });
      await logged();
      expect(faults.struck(), `operation ${nth}`).not.toBeNull();
      struck.add(faults.struck()!);
      vi.restoreAllMocks();
      expect(await rowsOnDisk(), `operation ${nth}, ${faults.struck()}`).toEqual(Array.from({ length: ROWS }, (_, n) => n));
    }
    expect([...struck].sort()).toEqual(['add', 'get', 'getAll', 'getAllKeys', 'open', 'transaction']);
  });

  it('fails for ever from any one on: what was counted as saved is there, the rest waits and is written when it heals', async () => {
    for (const nth of [4, 9, 14, 20]) {
      vi.restoreAllMocks();
      globalThis.indexedDB = new IDBFactory();
      const { log } = await openFlightLog(createDatabase({ limitSeconds: 0.2 }), 'flight-1');
      const faults = nthOperationFails({ nth, forEver: true });
      for (let n = 0; n < ROWS; n += 1) {
        log.append(rowAt(n));
        await new Promise((resolve) => setTimeout(resolve, 4));
      }
      await vi.waitFor(() => expect(log.health().fault).not.toBeNull(), { timeout: 2000 });
      const confirmed = log.confirmedSequence();
      expect(confirmed).toBeLessThan(ROWS - 1);
      expect(log.health().waitingRows).toBe(ROWS - 1 - confirmed);
      faults.heal();
      expect((await rowsOnDisk()).length).toBeGreaterThan(confirmed);
      await log.flushed();
      expect(log.health()).toEqual({ state: 'saving', waitingRows: 0, fault: null });
      expect(await rowsOnDisk()).toEqual(Array.from({ length: ROWS }, (_, n) => n));
    }
  });

  it('fails once, whichever it is, while files are imported: all of them or none, and what was there stays', async () => {
    const files = ['SPRING', 'AUTUMN'].map((text) => new File([writeJob({ ...DEMO_JOB, id: text.toLowerCase(), name: text, text })], `${text}.json`));
    for (let nth = 1; nth <= 24; nth += 1) {
      vi.restoreAllMocks();
      globalThis.indexedDB = new IDBFactory();
      const database = createDatabase({ limitSeconds: 0.2 });
      await saveJob(database, { ...DEMO_JOB, id: 'mine', name: 'Mine' }, null, 1);
      const shelf = createJobShelf(database, () => 2);
      const faults = nthOperationFails({ nth, forEver: nth % 2 === 0 });
      await shelf.importFiles(files);
      faults.heal();
      vi.restoreAllMocks();
      const ids = (await readJobs(createDatabase())).jobs
        .map(({ id }) => id)
        .filter((id) => id !== DEMO_JOB.id)
        .sort();
      const notice = shelf.notice.peek();
      expect([['mine'], ['autumn', 'mine', 'spring']], `operation ${nth}`).toContainEqual(ids);
      // Said as it is: nobody is told that an import failed which was stored, nor the other way.
      expect(notice?.kind, `operation ${nth}, ${faults.struck()}`).toBe(ids.length === 1 ? 'failed' : 'imported');
      if (notice?.kind === 'failed') expect(notice.reason).toMatch(/storage of this device/);
    }
  });
});
