import 'fake-indexeddb/auto';
import { fc } from '../property.ts';
import { IDBFactory } from 'fake-indexeddb';
import { beforeEach, describe, expect, it } from 'vitest';
import type { LogRow } from '../../src/core/guidance/log-row.ts';
import { createDatabase, type Database } from '../../src/store/database.ts';
import { deleteFlight } from '../../src/store/flights.ts';
import { packedFromReading, readEndedLog, readingFromPacked } from '../../src/store/packed-log.ts';
import { type LogReading, readLog } from '../../src/store/read-log.ts';
import { storedFromLogRow } from '../../src/store/read-row.ts';
import { readSetting, saveSetting } from '../../src/store/settings.ts';

let database: Database;

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
  database = createDatabase();
});

const FIX = {
  latitudeDegrees: 43.9,
  longitudeDegrees: -74.4,
  accuracyMetres: 7,
  altitudeMetres: null,
  groundSpeedMetresPerSecond: 54.5,
  trackDegrees: null,
  stampMilliseconds: 1_790_000_000_123,
};

function rowAt(sequence: number): LogRow {
  const times = { atSeconds: sequence / 10, wallMilliseconds: 1_790_000_000_000 + sequence * 100 };
  const event =
    sequence % 10 === 0
      ? { kind: 'fixReceived', fix: FIX, ...times }
      : sequence % 77 === 0
        ? { kind: 'smokeSwitched', smoke: 'on', ...times }
        : { kind: 'clockAdvanced', ...times };
  return { sequence, monotonicSeconds: times.atSeconds, wallMilliseconds: times.wallMilliseconds, event };
}

async function putRows(sequences: readonly number[]): Promise<void> {
  await database.transact(['rows'], 'readwrite', async (transaction) => {
    await Promise.all(sequences.map((sequence) => transaction.objectStore('rows').put(storedFromLogRow('flight-1', rowAt(sequence)))));
  });
}

function packedOnDisk(): Promise<unknown> {
  return readSetting(database, 'packed-log/flight-1');
}

describe('packing', () => {
  it('gives every row back, whatever its event', () => {
    const numbers = fc.oneof(fc.double({ noNaN: true, noDefaultInfinity: true }), fc.constant(null));
    const event = fc.oneof(
      fc.record({ kind: fc.constant('clockAdvanced'), atSeconds: fc.double({ noNaN: true }), wallMilliseconds: fc.integer() }),
      fc.record({
        kind: fc.constant('fixReceived'),
        atSeconds: fc.integer(),
        wallMilliseconds: fc.integer(),
        fix: fc.record(
          {
            latitudeDegrees: numbers,
            longitudeDegrees: numbers,
            accuracyMetres: numbers,
            altitudeMetres: numbers,
            groundSpeedMetresPerSecond: numbers,
            trackDegrees: numbers,
            stampMilliseconds: numbers,
          },
          { noNullPrototype: true },
        ),
      }),
      fc.record({ kind: fc.constant('fixReceived'), fix: fc.dictionary(fc.string(), fc.integer(), { noNullPrototype: true }) }),
      fc.jsonValue(),
    );
    fc.assert(
      fc.property(fc.array(event, { maxLength: 30 }), (events) => {
        // As it comes out of the store: what JSON holds.
        const rows = events.map((each, sequence): LogRow => ({
          sequence,
          monotonicSeconds: sequence,
          wallMilliseconds: sequence * 7,
          event: JSON.parse(JSON.stringify(each)) as unknown,
        }));
        const reading: LogReading = { rows, gaps: [], damagedSequences: [], cutSequences: [], nextSequence: rows.length };
        expect(readingFromPacked(packedFromReading('flight-1', rows.length, reading))).toEqual(reading);
      }),
    );
  });
});

describe('a log that has ended', () => {
  it('reads the same row by row and packed, over more rows than one transaction takes, and its end alone', async () => {
    await putRows(Array.from({ length: 9_100 }, (_, sequence) => sequence).filter((sequence) => sequence !== 5_000));
    const plain = await readLog(database, 'flight-1');
    expect(plain.rows).toHaveLength(9_099);
    expect(plain.gaps).toEqual([{ firstSequence: 5_000, lastSequence: 5_000 }]);
    const first = await readEndedLog(database, 'flight-1');
    expect(first.reading).toEqual(plain);
    expect(await packedOnDisk()).toBeNull();
    await first.pack?.();
    expect(await packedOnDisk()).not.toBeNull();
    expect(await readEndedLog(database, 'flight-1')).toEqual({ reading: plain, pack: null });
    expect((await readLog(database, 'flight-1', 9_000)).rows.map(({ sequence }) => sequence)).toEqual(Array.from({ length: 100 }, (_, index) => 9_000 + index));
  });

  it('is read from its packing, until a row is added or the packing does not hold together', async () => {
    await putRows([0, 1, 2]);
    await (await readEndedLog(database, 'flight-1')).pack?.();
    const packed = (await packedOnDisk()) as { monotonicSeconds: Float64Array };
    // A mark that only the packing has shows where the reading came from.
    packed.monotonicSeconds[1] = 99;
    await saveSetting(database, 'packed-log/flight-1', packed);
    expect((await readEndedLog(database, 'flight-1')).reading.rows[1]!.monotonicSeconds).toBe(99);
    await putRows([3]);
    expect((await readEndedLog(database, 'flight-1')).reading.rows.map(({ monotonicSeconds }) => monotonicSeconds)).toEqual([0, 0.1, 0.2, 0.3]);
    await saveSetting(database, 'packed-log/flight-1', { ...packed, storedRows: 4, nextSequence: 4, kinds: new Uint8Array(2) });
    expect((await readEndedLog(database, 'flight-1')).reading.rows).toHaveLength(4);
  });

  it('leaves no packing behind when its flight is deleted', async () => {
    await putRows([0, 1, 2]);
    await (await readEndedLog(database, 'flight-1')).pack?.();
    expect(await packedOnDisk()).not.toBeNull();
    await deleteFlight(database, 'flight-1');
    expect(await readSetting(database, 'packed-log/flight-1')).toBeNull();
  });
});
