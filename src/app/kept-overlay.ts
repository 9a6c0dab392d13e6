import type { Database } from '../store/database.ts';
import { readOverlay, saveOverlay, type StoredOverlay } from '../store/overlays.ts';
import { storeFaultFrom } from '../store/store-fault.ts';

/** Where the overlay of one job is kept; both reject with a `StoreFault`, whose message is a sentence. */
export interface KeptOverlay {
  read(): Promise<StoredOverlay | null>;
  save(overlay: StoredOverlay | null): Promise<void>;
}

/** The place of a job's overlay in the database. */
export function keptOverlay(database: Database, jobId: string): KeptOverlay {
  const inWords = (error: unknown): never => {
    throw storeFaultFrom(error);
  };
  return {
    read: () => readOverlay(database, jobId).catch(inWords),
    save: (overlay) => saveOverlay(database, jobId, overlay).catch(inWords),
  };
}
