import type { Database } from './database.ts';

/** A setting as it was stored, to be parsed by whoever asked; null when it never was. Rejects with a `StoreFault`. */
export async function readSetting(database: Database, key: string): Promise<unknown> {
  const value = await database.transact(['settings'], 'readonly', (transaction) => transaction.objectStore('settings').get(key));
  return value ?? null;
}

/** Stores a setting, in place of what it was. Rejects with a `StoreFault`. */
export async function saveSetting(database: Database, key: string, value: unknown): Promise<void> {
  await database.transact(['settings'], 'readwrite', (transaction) => transaction.objectStore('settings').put(value, key));
}
