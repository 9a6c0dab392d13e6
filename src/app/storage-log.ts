import type { Database } from '../store/database.ts';
import { beginNewLog } from '../store/new-log.ts';

/** A flight that goes on reads its log and shows its cue in less; five megabytes may take a tablet a second. */
const AFTER_START_MILLISECONDS = 4_000;

/**
 * Has Chromium put its storage log away, whose end a kill may have torn (see `store/new-log.ts`). Done at each start, well
 * after the first cue: nothing that a killed page leaves behind is written soon enough to tell of the kill, the plain storage
 * least of all.
 *
 * @returns what became of it; rejects never
 */
export async function renewStorageLog(database: Database): Promise<'renewed' | 'not needed' | 'failed'> {
  await new Promise((resolve) => setTimeout(resolve, AFTER_START_MILLISECONDS));
  // Only Chromium says who it is in this way, and only it has such a log.
  if (!('userAgentData' in navigator)) return 'not needed';
  try {
    await beginNewLog(database);
    return 'renewed';
  } catch {
    return 'failed';
  }
}
