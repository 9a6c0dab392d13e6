import type { IDBPDatabase } from 'idb';
import type { QuillwindSchema } from './schema.ts';

/** Brings a database of any older version to `SCHEMA_VERSION`, step by step; never drops what it finds. */
export function upgradeSchema(database: IDBPDatabase<QuillwindSchema>, oldVersion: number): void {
  if (oldVersion < 1) {
    database.createObjectStore('jobs', { keyPath: 'id' });
    database.createObjectStore('flights', { keyPath: 'id' }).createIndex('by-job', 'jobId');
    database.createObjectStore('rows', { keyPath: ['flightId', 'sequence'] });
    database.createObjectStore('settings');
    database.createObjectStore('outbox', { keyPath: ['bootId', 'sequence'] });
  }
}
