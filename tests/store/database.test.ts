import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { openDB } from 'idb';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { createDatabase } from '../../src/store/database.ts';
import { readSetting, saveSetting } from '../../src/store/settings.ts';
import { StoreFault } from '../../src/store/store-fault.ts';
import { handleDies, openNeverSettles, transactionNeverCompletes } from './storage-faults.ts';

const LIMIT_SECONDS = 0.12;

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
});

afterEach(() => {
  vi.restoreAllMocks();
});

async function faultOf(promise: Promise<unknown>): Promise<string> {
  const error: unknown = await promise.then(
    () => null,
    (reason: unknown) => reason,
  );
  return error instanceof StoreFault ? error.reason : `no fault: ${String(error)}`;
}

describe('database', () => {
  it('gives back what was stored, to another handle', async () => {
    await saveSetting(createDatabase(), 'appearance', 'night');
    expect(await readSetting(createDatabase(), 'appearance')).toBe('night');
    expect(await readSetting(createDatabase(), 'unheard of')).toBeNull();
  });

  it('writes with strict durability', async () => {
    const transaction = vi.spyOn(IDBDatabase.prototype, 'transaction');
    await saveSetting(createDatabase(), 'appearance', 'night');
    expect(transaction).toHaveBeenCalledWith(['settings'], 'readwrite', { durability: 'strict' });
  });

  it.each([
    ['the handle dies', handleDies],
    ['an open never settles', openNeverSettles],
    ['a transaction never completes', transactionNeverCompletes],
  ])('succeeds on a fresh handle when %s three times', async (_name, strike) => {
    const database = createDatabase({ limitSeconds: LIMIT_SECONDS });
    strike(3);
    await saveSetting(database, 'appearance', 'night');
    expect(await readSetting(database, 'appearance')).toBe('night');
  });

  it.each([
    ['the handle dies', handleDies, 'failed'],
    ['an open never settles', openNeverSettles, 'timed-out'],
    ['a transaction never completes', transactionNeverCompletes, 'timed-out'],
  ])('gives up with a reason after the fourth time %s, and works again afterwards', async (_name, strike, reason) => {
    const database = createDatabase({ limitSeconds: LIMIT_SECONDS });
    strike(4);
    expect(await faultOf(saveSetting(database, 'appearance', 'night'))).toBe(reason);
    await saveSetting(database, 'appearance', 'day');
    expect(await readSetting(database, 'appearance')).toBe('day');
  });

  it('replaces a handle that the browser terminated while nobody looked', async () => {
    const terminations: EventListener[] = [];
    const addEventListener = IDBDatabase.prototype.addEventListener;
    vi.spyOn(IDBDatabase.prototype, 'addEventListener').mockImplementation(function (
      this: IDBDatabase,
      type: string,
      listener: EventListenerOrEventListenerObject | null,
    ) {
      if (type === 'close') terminations.push(listener as EventListener);
      else addEventListener.call(this, type, listener as EventListener);
    });
    const database = createDatabase();
    await database.probe();
    await database.probe();
    expect(terminations).toHaveLength(1);
    terminations[0]?.(new Event('close'));
    await database.probe();
    expect(terminations).toHaveLength(2);
  });

  it('deletes nothing to recover', async () => {
    const deletion = vi.spyOn(IDBFactory.prototype, 'deleteDatabase');
    const clearing = vi.spyOn(IDBObjectStore.prototype, 'clear');
    const database = createDatabase({ limitSeconds: LIMIT_SECONDS });
    handleDies(4);
    await faultOf(database.probe());
    expect(deletion).not.toHaveBeenCalled();
    expect(clearing).not.toHaveBeenCalled();
  });

  it('says that what is stored is newer than this page', async () => {
    (await openDB('quillwind', 99)).close();
    expect(await faultOf(createDatabase().probe())).toBe('newer-data');
  });

  it('says that another tab blocks the upgrade, and opens once it does not', async () => {
    const database = createDatabase({ limitSeconds: LIMIT_SECONDS });
    openNeverSettles(1, true);
    expect(await faultOf(database.probe())).toBe('blocked');
    await database.probe();
  });

  it('closes a handle that arrives after its time', async () => {
    const database = createDatabase({ limitSeconds: LIMIT_SECONDS });
    const close = vi.spyOn(IDBDatabase.prototype, 'close');
    const addEventListener = IDBOpenDBRequest.prototype.addEventListener;
    let late = 1;
    vi.spyOn(IDBOpenDBRequest.prototype, 'addEventListener').mockImplementation(function (
      this: IDBOpenDBRequest,
      type: string,
      listener: EventListenerOrEventListenerObject | null,
    ) {
      const slow = type === 'success' && late-- > 0;
      const held = slow && typeof listener === 'function' ? (event: Event) => setTimeout(() => listener.call(this, event), LIMIT_SECONDS * 3000) : listener;
      addEventListener.call(this, type, held as EventListener);
    });
    await database.probe();
    expect(close).not.toHaveBeenCalled();
    await new Promise((resolve) => setTimeout(resolve, LIMIT_SECONDS * 4000));
    expect(close).toHaveBeenCalledTimes(1);
    await database.probe();
  });

  it('gives way to a newer page, and then says so', async () => {
    const database = createDatabase();
    await database.probe();
    const newer = await openDB('quillwind', 2);
    expect(newer.version).toBe(2);
    newer.close();
    expect(await faultOf(database.probe())).toBe('newer-data');
  });

  it('does not give way while a flight is in progress', async () => {
    let inFlight = true;
    const database = createDatabase({ mayGiveWay: () => !inFlight });
    await database.probe();
    let blocked = 0;
    const newer = openDB('quillwind', 2, { blocked: () => (blocked += 1) });
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect(blocked).toBe(1);
    await saveSetting(database, 'appearance', 'night');
    inFlight = false;
    database.close();
    expect((await newer).version).toBe(2);
  });

  it('gives way when it may at last, though it is asked only once', async () => {
    let inFlight = true;
    const database = createDatabase({ mayGiveWay: () => !inFlight });
    await database.probe();
    const newer = openDB('quillwind', 2);
    await new Promise((resolve) => setTimeout(resolve, 50));
    database.giveWay();
    await saveSetting(database, 'appearance', 'night');
    inFlight = false;
    database.giveWay();
    expect((await newer).version).toBe(2);
    expect(await faultOf(database.probe())).toBe('newer-data');
  });

  it('writes nothing without permission, and reads all the same', async () => {
    const reader = createDatabase({ permitWriting: () => Promise.reject(new StoreFault('read-only')) });
    await saveSetting(createDatabase(), 'appearance', 'night');
    expect(await faultOf(saveSetting(reader, 'appearance', 'day'))).toBe('read-only');
    expect(await readSetting(reader, 'appearance')).toBe('night');
  });
});
