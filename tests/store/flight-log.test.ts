import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { openDB } from 'idb';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { createDatabase, type Database } from '../../src/store/database.ts';
import { type FlightLog, openFlightLog } from '../../src/store/flight-log.ts';
import { handleDies, noRoomAtCommit, openNeverSettles, transactionNeverCompletes, writeFails } from './storage-faults.ts';

const LIMIT_SECONDS = 0.12;

let database: Database;

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
  database = createDatabase({ limitSeconds: LIMIT_SECONDS });
});

afterEach(() => {
  vi.restoreAllMocks();
  vi.useRealTimers();
});

async function opened(flightId = 'flight-1'): Promise<FlightLog> {
  return (await openFlightLog(database, flightId)).log;
}

function fixAt(seconds: number): { monotonicSeconds: number; wallMilliseconds: number; event: unknown } {
  return {
    monotonicSeconds: seconds,
    wallMilliseconds: 1_790_000_000_000 + seconds * 1000,
    event: { kind: 'fixReceived', latitudeDegrees: 45.1 + seconds / 3 },
  };
}

async function sequencesOnDisk(flightId = 'flight-1'): Promise<number[]> {
  const { reading } = await openFlightLog(createDatabase(), flightId);
  return reading.rows.map(({ sequence }) => sequence);
}

/** Changes stored rows behind the app's back. */
async function tamper(change: (value: Record<string, unknown>) => unknown, ...sequences: readonly number[]): Promise<void> {
  const raw = await openDB('quillwind');
  for (const sequence of sequences) {
    const value = (await raw.get('rows', ['flight-1', sequence])) as Record<string, unknown>;
    await raw.put('rows', change(value));
  }
  raw.close();
}

describe('flight log', () => {
  it('numbers rows from 0 and counts them as saved when they are on disk', async () => {
    const log = await opened();
    expect(log.confirmedSequence()).toBe(-1);
    expect([log.append(fixAt(0)), log.append(fixAt(1)), log.append(fixAt(2))]).toEqual([0, 1, 2]);
    expect(log.confirmedSequence()).toBe(-1);
    await log.flushed();
    expect(log.confirmedSequence()).toBe(2);
    const reading = await log.rows();
    expect(reading.rows).toEqual([0, 1, 2].map((sequence) => ({ sequence, ...fixAt(sequence) })));
    expect(reading).toMatchObject({ gaps: [], damagedSequences: [], cutSequences: [], nextSequence: 3 });
  });

  it('asks nothing of the database before the task that took a row has ended, so that its cue is shown first', async () => {
    const log = await opened();
    const asked = vi.spyOn(IDBDatabase.prototype, 'transaction');
    log.append(fixAt(0));
    for (let microtask = 0; microtask < 50; microtask += 1) await Promise.resolve();
    expect(asked).not.toHaveBeenCalled();
    await log.flushed();
    expect(asked).toHaveBeenCalledTimes(1);
    expect(await sequencesOnDisk()).toEqual([0]);
  });

  it('never has more confirmed than is on disk, whatever fails', async () => {
    const log = await opened();
    writeFails('UnknownError', 2, 1);
    let checked = 0;
    const stop = log.subscribe(() => {
      checked += 1;
    });
    for (let second = 0; second < 5; second += 1) {
      log.append(fixAt(second));
      await new Promise((resolve) => setTimeout(resolve, 3));
      const confirmed = log.confirmedSequence();
      expect((await sequencesOnDisk()).length).toBeGreaterThan(confirmed);
    }
    await log.flushed();
    stop();
    expect(checked).toBeGreaterThan(0);
    expect(await sequencesOnDisk()).toEqual([0, 1, 2, 3, 4]);
  });

  it('continues its numbers after a kill', async () => {
    const before = await opened();
    before.append(fixAt(0));
    before.append(fixAt(1));
    await before.flushed();
    const { log, reading } = await openFlightLog(createDatabase(), 'flight-1');
    expect(reading.rows).toHaveLength(2);
    expect(log.append(fixAt(2))).toBe(2);
    await log.flushed();
    expect(await sequencesOnDisk()).toEqual([0, 1, 2]);
  });

  it('keeps flights apart', async () => {
    const [one, other] = [await opened('flight-1'), await opened('flight-10')];
    one.append(fixAt(0));
    other.append(fixAt(7));
    await Promise.all([one.flushed(), other.flushed()]);
    expect((await one.rows()).rows).toHaveLength(1);
    expect((await other.rows()).rows[0]?.monotonicSeconds).toBe(7);
  });

  it('gives doubles back bit for bit', async () => {
    const log = await opened();
    const values = [0.1 + 0.2, 1 / 3, Number.MIN_VALUE, Number.MAX_VALUE, 45.123_456_789_012_34];
    log.append({ monotonicSeconds: 1 / 3, wallMilliseconds: 5, event: values });
    await log.flushed();
    const [row] = (await log.rows()).rows;
    expect(row?.event).toStrictEqual(values);
    expect(row?.monotonicSeconds).toBe(1 / 3);
  });

  it('throws for what JSON cannot hold, and the log goes on', async () => {
    const log = await opened();
    expect(() => log.append({ monotonicSeconds: 0, wallMilliseconds: 0, event: undefined })).toThrow(RangeError);
    expect(() => log.append({ monotonicSeconds: Number.NaN, wallMilliseconds: 0, event: 1 })).toThrow('monotonicSeconds is NaN');
    expect(log.append(fixAt(0))).toBe(0);
    await log.flushed();
    expect(await sequencesOnDisk()).toEqual([0]);
  });

  it.each([
    ['the handle dies', () => handleDies(6)],
    ['an open never settles', () => openNeverSettles(6)],
    ['a transaction never completes', () => transactionNeverCompletes(6)],
    ['a write fails', () => writeFails('UnknownError', 6)],
    ['there is no room at the commit', () => noRoomAtCommit(2)],
    ['there is no room at once', () => writeFails('QuotaExceededError', 2)],
  ])('loses and doubles nothing when %s', async (_name, strike) => {
    const log = await opened();
    log.append(fixAt(0));
    await log.flushed();
    database.close();
    strike();
    for (let second = 1; second <= 4; second += 1) log.append(fixAt(second));
    await log.flushed();
    expect(log.health()).toEqual({ state: 'saving', waitingRows: 0, fault: null });
    expect(log.confirmedSequence()).toBe(4);
    vi.restoreAllMocks();
    expect(await sequencesOnDisk()).toEqual([0, 1, 2, 3, 4]);
  });

  it('says LOG NOT SAVING after 3 s without a saved row, why, and heals when the storage does', async () => {
    const log = await opened();
    writeFails('QuotaExceededError', Number.POSITIVE_INFINITY);
    const states: string[] = [];
    log.subscribe(() => states.push(log.health().state));
    const startedAt = performance.now();
    log.append(fixAt(0));
    const elapsedSeconds = (): number => (performance.now() - startedAt) / 1000;
    let stillSavingSeconds = 0;
    while (log.health().state === 'saving') {
      // A machine that stands still for a second is no fault of the log: what counts is when it was last looked at.
      stillSavingSeconds = elapsedSeconds();
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
    expect(elapsedSeconds()).toBeGreaterThan(2.9);
    expect(stillSavingSeconds).toBeLessThan(3.5);
    log.append(fixAt(1));
    expect(log.health()).toMatchObject({ state: 'not-saving', waitingRows: 2 });
    expect(log.health().fault?.reason).toBe('no-space');
    expect(log.confirmedSequence()).toBe(-1);
    vi.restoreAllMocks();
    await log.flushed();
    expect(log.health()).toEqual({ state: 'saving', waitingRows: 0, fault: null });
    expect(states.at(-1)).toBe('saving');
    expect(await sequencesOnDisk()).toEqual([0, 1]);
  });

  it('does not complain while there is nothing to save', async () => {
    const log = await opened();
    log.append(fixAt(0));
    await log.flushed();
    await new Promise((resolve) => setTimeout(resolve, 3300));
    expect(log.health().state).toBe('saving');
  });

  it('cuts a torn tail, writes on behind it and overwrites nothing', async () => {
    const log = await opened();
    for (let second = 0; second < 4; second += 1) log.append(fixAt(second));
    await log.flushed();
    await tamper((value) => ({ ...value, eventText: '{"kind":"fixRec' }), 3);
    const { log: next, reading } = await openFlightLog(createDatabase(), 'flight-1');
    expect(reading.rows).toHaveLength(3);
    expect(reading).toMatchObject({ gaps: [], damagedSequences: [], cutSequences: [3], nextSequence: 4 });
    expect(next.append(fixAt(9))).toBe(4);
    await next.flushed();
    const after = await next.rows();
    expect(after).toMatchObject({ gaps: [{ firstSequence: 3, lastSequence: 3 }], damagedSequences: [3], cutSequences: [] });
  });

  it.each([
    ['text altered', (value: Record<string, unknown>) => ({ ...value, eventText: '{"kind":"fixReceived"}' })],
    ['time altered', (value: Record<string, unknown>) => ({ ...value, monotonicSeconds: 99 })],
    ['field missing', (value: Record<string, unknown>) => ({ ...value, checksum: undefined })],
    ['field of another type', (value: Record<string, unknown>) => ({ ...value, eventText: 7 })],
  ])('reports a damaged row by its number, and the gap: %s', async (_name, change) => {
    const log = await opened();
    for (let second = 0; second < 4; second += 1) log.append(fixAt(second));
    await log.flushed();
    await tamper(change, 1);
    const reading = await log.rows();
    expect(reading.rows.map(({ sequence }) => sequence)).toEqual([0, 2, 3]);
    expect(reading).toMatchObject({ gaps: [{ firstSequence: 1, lastSequence: 1 }], damagedSequences: [1], cutSequences: [] });
  });

  it('never overwrites a row that another writer put there', async () => {
    const log = await opened();
    const rival = (await openFlightLog(createDatabase(), 'flight-1')).log;
    rival.append(fixAt(50));
    await rival.flushed();
    log.append(fixAt(0));
    await vi.waitFor(() => expect(log.health().fault?.reason).toBe('conflict'));
    expect((await rival.rows()).rows[0]?.monotonicSeconds).toBe(50);
  });

  it('takes nothing after it was closed', async () => {
    const log = await opened();
    log.append(fixAt(0));
    await log.close();
    expect(log.confirmedSequence()).toBe(0);
    expect(() => log.append(fixAt(1))).toThrow(RangeError);
  });
});
