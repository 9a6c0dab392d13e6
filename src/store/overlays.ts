import type { Database } from './database.ts';

/** A job's overlay as its file was: parsed by whoever reads it, never trusted. */
export interface StoredOverlay {
  readonly fileName: string;
  /** GeoJSON, up to 20 MB. */
  readonly text: string;
}

/** The setting in which a job's overlay lies. */
export const overlayKey = (jobId: string): string => `overlay/${jobId}`;

/** The overlay kept with a job; null when there is none. Rejects with a `StoreFault`. */
export async function readOverlay(database: Database, jobId: string): Promise<StoredOverlay | null> {
  const value = await database.transact(['settings'], 'readonly', (transaction) => transaction.objectStore('settings').get(overlayKey(jobId)));
  if (typeof value !== 'object' || value === null) return null;
  const { fileName, text }: Partial<Record<keyof StoredOverlay, unknown>> = value;
  return typeof text === 'string' ? { fileName: typeof fileName === 'string' ? fileName : '', text } : null;
}

/** Keeps an overlay with a job in place of the one before; null takes it out. Rejects with a `StoreFault`. */
export async function saveOverlay(database: Database, jobId: string, overlay: StoredOverlay | null): Promise<void> {
  await database.transact(['settings'], 'readwrite', async (transaction) => {
    const settings = transaction.objectStore('settings');
    if (overlay === null) await settings.delete(overlayKey(jobId));
    else await settings.put({ fileName: overlay.fileName, text: overlay.text }, overlayKey(jobId));
  });
}
