/** What the browser promises about the stored data. */
export interface Persistence {
  /** `best-effort`: the browser may clear the data when it wants the room. `unknown`: it does not say. */
  readonly state: 'persistent' | 'best-effort' | 'unknown';
  /** What is left for this page; null when the browser does not say. */
  readonly freeBytes: number | null;
}

/** Asks the browser to keep the data; safe to ask again, and needs no tap. */
export async function askPersistence(storage: StorageManager | undefined): Promise<Persistence> {
  return { state: await persistenceState(storage), freeBytes: await freeBytes(storage) };
}

async function persistenceState(storage: StorageManager | undefined): Promise<Persistence['state']> {
  if (storage?.persist === undefined) return 'unknown';
  try {
    return (await storage.persisted()) || (await storage.persist()) ? 'persistent' : 'best-effort';
  } catch {
    return 'unknown';
  }
}

async function freeBytes(storage: StorageManager | undefined): Promise<number | null> {
  try {
    const { quota, usage } = (await storage?.estimate()) ?? {};
    return quota === undefined ? null : Math.max(0, quota - (usage ?? 0));
  } catch {
    return null;
  }
}
