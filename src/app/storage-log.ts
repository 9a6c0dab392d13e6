import { beginNewLog } from '../store/new-log.ts';

/**
 * Has Chromium put its storage log away, whose end a kill may have torn (see `store/new-log.ts`). Done at each start, as soon as
 * its code is there, which is mostly before anything is written: nothing that a killed page leaves behind is written soon enough to
 * tell of the kill, the plain storage least of all. What became of it is said on the document: `data-log` is `renewed`, `not needed`
 * or `failed`. Rejects never.
 */
export async function renewStorageLog(): Promise<void> {
  document.documentElement.dataset['log'] = await renewed();
}

async function renewed(): Promise<'renewed' | 'not needed' | 'failed'> {
  // Only Chromium says who it is in this way, and only it has such a log.
  if (!('userAgentData' in navigator)) return 'not needed';
  try {
    await beginNewLog();
    return 'renewed';
  } catch {
    return 'failed';
  }
}
