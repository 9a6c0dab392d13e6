import { precache, cleanupOutdatedCaches, type PrecacheEntry } from 'workbox-precaching';

/** Stores every built file at install, all or none, and drops the files of versions before at activation. */
export function precacheApp(manifest: readonly (PrecacheEntry | string)[]): void {
  precache([...manifest]);
  cleanupOutdatedCaches();
}
