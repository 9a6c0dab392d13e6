import type { Database } from './database.ts';

const PIECES = 168;
/** Under what Chromium puts beside its log, as a file of its own. */
const PIECE_BYTES = 32_768;
/** 128 KB are copied in a few milliseconds on a processor slowed four times. */
const AT_ONCE = 4;
const KEYS = Array.from({ length: PIECES }, (_, index) => `scratch/${index}`);

/**
 * Has Chromium begin a new storage log. A kill in the middle of a write tears the log's end; the next browser reads it and
 * writes on behind the torn end, and the one after that finds the sum wrong there and deletes the whole database (seen in
 * Chromium 156: its own log says "Reusing old log", then "checksum mismatch"). LevelDB puts its log away once 4 MB stand in it
 * (`write_buffer_size`): so much is written that cannot be packed, and taken out again. Elsewhere it only costs the writing.
 * Rejects with a `StoreFault`.
 */
export async function beginNewLog(database: Database): Promise<void> {
  await database.transact(['settings'], 'readwrite', async (transaction) => {
    const settings = transaction.objectStore('settings');
    // The same piece each time, since each is packed by itself; a few at once, so that nobody waits for the page meanwhile.
    const piece = crypto.getRandomValues(new Uint8Array(PIECE_BYTES));
    for (let from = 0; from < PIECES; from += AT_ONCE) await Promise.all(KEYS.slice(from, from + AT_ONCE).map((key) => settings.put(piece, key)));
  });
  // The first write after the log is full begins the next.
  await database.transact(['settings'], 'readwrite', async (transaction) => {
    await transaction.objectStore('settings').delete(IDBKeyRange.bound('scratch/', 'scratch/\uffff'));
  });
}
