import type { Database } from './database.ts';

const PIECES = 168;
/** Under what Chromium puts beside its log, as a file of its own. */
const PIECE_BYTES = 32_768;
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
    await Promise.all(KEYS.map((key) => settings.put(crypto.getRandomValues(new Uint8Array(PIECE_BYTES)), key)));
  });
  // The first write after the log is full begins the next.
  await database.transact(['settings'], 'readwrite', async (transaction) => {
    const settings = transaction.objectStore('settings');
    await Promise.all(KEYS.map((key) => settings.delete(key)));
  });
}
