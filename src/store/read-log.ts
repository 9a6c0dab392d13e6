import type { LogRow } from '../core/formats/log-row.ts';
import type { Database } from './database.ts';
import { logRowFromStored } from './read-row.ts';

/** Numbers missing between two rows, both ends missing too. */
export interface LogGap {
  readonly firstSequence: number;
  readonly lastSequence: number;
}

/** What is left of a flight's log. */
export interface LogReading {
  /** Whole rows in order, damaged ones left out. */
  readonly rows: readonly LogRow[];
  /** Rows lost inside the log, damaged or never written: shown as gaps, never joined over. */
  readonly gaps: readonly LogGap[];
  /** Damaged rows inside the log, by number; each lies in a gap. */
  readonly damagedSequences: readonly number[];
  /** Damaged rows at the end, which were being written when the page died. */
  readonly cutSequences: readonly number[];
  /** The number that the next row gets: above everything stored, since nothing is overwritten. */
  readonly nextSequence: number;
}

/** Reads a flight's log; an unknown flight reads as empty. Rejects with a `StoreFault`. */
export async function readLog(database: Database, flightId: string): Promise<LogReading> {
  const range = IDBKeyRange.bound([flightId, 0], [flightId, Number.MAX_SAFE_INTEGER]);
  const [keys, values] = await database.transact(['rows'], 'readonly', async (transaction) => {
    const store = transaction.objectStore('rows');
    return [await store.getAllKeys(range), (await store.getAll(range)) as unknown[]];
  });
  return readingFromRows(
    keys.map(([, sequence]) => sequence),
    values,
  );
}

/** The reading of stored values under their sequence numbers, in order. */
export function readingFromRows(sequences: readonly number[], values: readonly unknown[]): LogReading {
  const rows: LogRow[] = [];
  const damaged: number[] = [];
  for (const [index, sequence] of sequences.entries()) {
    const row = logRowFromStored(values[index]);
    if (row === null || row.sequence !== sequence) damaged.push(sequence);
    else rows.push(row);
  }
  const lastWhole = rows.at(-1)?.sequence ?? -1;
  const gaps: LogGap[] = [];
  let expected = 0;
  for (const { sequence } of rows) {
    if (sequence > expected) gaps.push({ firstSequence: expected, lastSequence: sequence - 1 });
    expected = sequence + 1;
  }
  return {
    rows,
    gaps,
    damagedSequences: damaged.filter((sequence) => sequence < lastWhole),
    cutSequences: damaged.filter((sequence) => sequence > lastWhole),
    nextSequence: (sequences.at(-1) ?? -1) + 1,
  };
}
