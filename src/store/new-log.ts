// Past the library, whose part for this would be fetched before the first cue.

/** Holds nothing, and is gone at once. */
const SCRATCH = 'quillwind-scratch';

/**
 * Has Chromium begin a new storage log. A kill in the middle of a write tears the log's end; the next browser reads it and
 * writes on behind the torn end, and the one after that finds the sum wrong there and deletes the whole database (seen in
 * Chromium 156: its own log says "Reusing old log", then "checksum mismatch"). All databases of a page share one log, and
 * LevelDB puts it away when one of them is deleted, since it tidies up where that stood: an empty one is made and deleted
 * (000003.log before, 000004.log after). Elsewhere it costs nothing. Rejects when the browser refuses either.
 */
export async function beginNewLog(): Promise<void> {
  const opening = indexedDB.open(SCRATCH, 1);
  await succeeded(opening);
  opening.result.close();
  await succeeded(indexedDB.deleteDatabase(SCRATCH));
}

function succeeded(request: IDBOpenDBRequest): Promise<void> {
  return new Promise((resolve, reject) => {
    request.addEventListener('success', () => resolve());
    request.addEventListener('error', () => reject(request.error));
  });
}
