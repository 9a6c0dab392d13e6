import type { LogRow } from '../core/guidance/log-row.ts';
import type { Database } from './database.ts';
import { nextTask } from './next-task.ts';
import { type LogReading, readLog } from './read-log.ts';
import { storedFromLogRow } from './read-row.ts';
import type { StoredRow } from './schema.ts';
import { StoreFault, storeFaultFrom } from './store-fault.ts';

/** Whether the log is being kept. */
export interface LogHealth {
  /** `not-saving` once a row has waited for three seconds, until every waiting row is saved. */
  readonly state: 'saving' | 'not-saving';
  /** Rows in memory that the disk does not have. */
  readonly waitingRows: number;
  /** Why the last attempt failed; null when it did not. */
  readonly fault: StoreFault | null;
}

/** One flight's append-only log. */
export interface FlightLog {
  readonly flightId: string;
  /**
   * Takes an event and returns its sequence number. Never waits and never fails for the storage's sake: the row
   * waits in memory until it is saved. Throws RangeError for what JSON cannot hold.
   */
  append(entry: Omit<LogRow, 'sequence'>): number;
  /** The last row on disk; every row before it is too. -1 for none. */
  confirmedSequence(): number;
  health(): LogHealth;
  /** Calls back on every change of health or of the confirmed row; the returned function ends it. */
  subscribe(listener: () => void): () => void;
  /** What is on disk, read anew. */
  rows(): Promise<LogReading>;
  /** Resolves when no row waits. */
  flushed(): Promise<void>;
  /** Takes no more rows and resolves when those waiting are saved. */
  close(): Promise<void>;
}

const NOT_SAVING_SECONDS = 3;
const PAUSE_SECONDS = 1;
/** Keeps a transaction short after a long outage. */
const ROWS_AT_ONCE = 200;

/** Saves rows in one transaction; a row that is there already must be the same, and is left alone. */
async function saveRows(database: Database, rows: readonly StoredRow[]): Promise<void> {
  await database.transact(['rows'], 'readwrite', async (transaction) => {
    const store = transaction.objectStore('rows');
    await Promise.all(
      rows.map(async (row) => {
        const there = await store.get([row.flightId, row.sequence]);
        // An attempt whose answer was lost may have been written all the same.
        if (there === undefined) await store.add(row);
        else if (there.checksum !== row.checksum) throw new StoreFault('conflict');
      }),
    );
  });
}

/**
 * Opens a flight's log at its end, whatever state a kill left it in. The reading taken at the opening is
 * returned beside it, for the flight to resume from; it begins at `fromSequence`, or at the log's beginning where that
 * row is not there. Rejects with a `StoreFault` when the log cannot be read.
 */
export async function openFlightLog(
  database: Database,
  flightId: string,
  fromSequence = 0,
): Promise<{ readonly log: FlightLog; readonly reading: LogReading }> {
  const end = await readLog(database, flightId, fromSequence);
  const reading = fromSequence === 0 || end.rows[0]?.sequence === fromSequence ? end : await readLog(database, flightId);
  return { log: startLog(database, flightId, reading.nextSequence), reading };
}

function startLog(database: Database, flightId: string, firstSequence: number): FlightLog {
  const waiting: StoredRow[] = [];
  const listeners = new Set<() => void>();
  let nextSequence = firstSequence;
  let confirmed = firstSequence - 1;
  let health: LogHealth = { state: 'saving', waitingRows: 0, fault: null };
  let writing: Promise<void> | null = null;
  let alarm: ReturnType<typeof setTimeout> | undefined;
  let closed = false;

  function report(change: Partial<LogHealth>): void {
    health = { ...health, waitingRows: waiting.length, ...change };
    for (const listener of listeners) listener();
  }

  /** Three seconds without any row confirmed while rows wait. */
  function watch(): void {
    alarm ??= setTimeout(() => report({ state: 'not-saving' }), NOT_SAVING_SECONDS * 1000);
  }

  function endWatch(): void {
    clearTimeout(alarm);
    alarm = undefined;
  }

  async function write(): Promise<void> {
    // The cue that a row led to is shown first: asking the database takes longer than drawing it.
    await nextTask();
    while (waiting.length > 0) {
      const batch = waiting.slice(0, ROWS_AT_ONCE);
      watch();
      try {
        await saveRows(database, batch);
        waiting.splice(0, batch.length);
        confirmed = batch.at(-1)?.sequence ?? confirmed;
        endWatch();
        report({ fault: null, ...(waiting.length === 0 ? { state: 'saving' } : {}) });
      } catch (error) {
        report({ fault: storeFaultFrom(error) });
        await new Promise((resolve) => setTimeout(resolve, PAUSE_SECONDS * 1000));
      }
    }
    writing = null;
  }

  return {
    flightId,
    append(entry) {
      if (closed) throw new RangeError(`The log of ${flightId} is closed.`);
      const row = storedFromLogRow(flightId, { ...entry, sequence: nextSequence });
      nextSequence += 1;
      waiting.push(row);
      writing ??= write();
      return row.sequence;
    },
    confirmedSequence: () => confirmed,
    health: () => ({ ...health, waitingRows: waiting.length }),
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    rows: () => readLog(database, flightId),
    async flushed() {
      while (writing !== null) await writing;
    },
    async close() {
      closed = true;
      while (writing !== null) await writing;
    },
  };
}
