import type { LogRow } from '../core/guidance/log-row.ts';
import type { Database } from './database.ts';
import { rowRange } from './log-keys.ts';
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

/** So many rows are read in one transaction: a long log would outlast the time a transaction is given. */
const ROWS_AT_ONCE = 4000;

/**
 * Reads a flight's log, or its end from a row on; an unknown flight reads as empty. What is appended meanwhile may be in
 * it. Rejects with a `StoreFault`.
 */
export async function readLog(database: Database, flightId: string, fromSequence = 0): Promise<LogReading> {
  const sequences: number[] = [];
  const values: unknown[] = [];
  for (let next = fromSequence; ;) {
    const range = rowRange(flightId, next);
    const { keys, rows } = await database.transact(['rows'], 'readonly', async (transaction) => {
      const store = transaction.objectStore('rows');
      // One after the other: a call that throws would leave the other's rejection to nobody.
      const found = await store.getAllKeys(range, ROWS_AT_ONCE);
      return { keys: found, rows: await store.getAll(range, ROWS_AT_ONCE) };
    });
    for (const [index, [, sequence]] of keys.entries()) {
      sequences.push(sequence);
      values.push(rows[index]);
    }
    if (keys.length < ROWS_AT_ONCE) return readingFromRows(sequences, values, fromSequence);
    next = (sequences.at(-1) ?? next) + 1;
  }
}

/** The reading of stored values under their sequence numbers, in order. */
export function readingFromRows(sequences: readonly number[], values: readonly unknown[], fromSequence = 0): LogReading {
  const rows: LogRow[] = [];
  const damaged: number[] = [];
  for (const [index, sequence] of sequences.entries()) {
    const row = logRowFromStored(values[index]);
    if (row === null || row.sequence !== sequence) damaged.push(sequence);
    else rows.push(row);
  }
  const lastWhole = rows.at(-1)?.sequence ?? -1;
  const gaps: LogGap[] = [];
  let expected = fromSequence;
  for (const { sequence } of rows) {
    if (sequence > expected) gaps.push({ firstSequence: expected, lastSequence: sequence - 1 });
    expected = sequence + 1;
  }
  return {
    rows,
    gaps,
    damagedSequences: damaged.filter((sequence) => sequence < lastWhole),
    cutSequences: damaged.filter((sequence) => sequence > lastWhole),
    nextSequence: (sequences.at(-1) ?? fromSequence - 1) + 1,
  };
}
