import type { ReadonlySignal } from '@preact/signals';
import type { Database } from '../store/database.ts';
import { beginNewLog } from '../store/new-log.ts';

/** Whether somebody flies by this page. */
export interface Flying {
  readonly state: ReadonlySignal<{ readonly kind: string }>;
}

/** A page that nobody flies by has time; five megabytes may take a tablet a second. */
const AFTER_START_MILLISECONDS = 4_000;

/** A flight that goes on after a kill writes rows at once, each of which a second kill would cost if the log's end were torn. */
const AFTER_CUE_MILLISECONDS = 250;

/**
 * Has Chromium put its storage log away, whose end a kill may have torn (see `store/new-log.ts`). Done at each start, as soon
 * as a flight that goes on has its cue, else when the page has settled: nothing that a killed page leaves behind is written soon
 * enough to tell of the kill, the plain storage least of all.
 *
 * What became of it is said on the document: `data-log` is `renewed`, `not needed` or `failed`. Rejects never.
 */
export async function renewStorageLog(database: Database, { state }: Flying): Promise<void> {
  await new Promise<void>((resolve) => {
    setTimeout(resolve, AFTER_START_MILLISECONDS);
    state.subscribe(({ kind }) => {
      if (kind === 'flying') setTimeout(resolve, AFTER_CUE_MILLISECONDS);
    });
  });
  document.documentElement.dataset['log'] = await renewed(database);
}

async function renewed(database: Database): Promise<'renewed' | 'not needed' | 'failed'> {
  // Only Chromium says who it is in this way, and only it has such a log.
  if (!('userAgentData' in navigator)) return 'not needed';
  try {
    await beginNewLog(database);
    return 'renewed';
  } catch {
    return 'failed';
  }
}
