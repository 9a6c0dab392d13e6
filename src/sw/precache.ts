import { cleanupOutdatedCaches, PrecacheController, type PrecacheEntry } from 'workbox-precaching';
import type { StoringPlugin } from './install-report.ts';

declare const self: ServiceWorkerGlobalScope;

/** Files fetched at once. One after another each of some 190 waits for the way there and back, which on a hangar's network is most of the time. */
const AT_ONCE = 6;

/**
 * Stores every built file at install, all or none, and drops the files of versions before at activation. The library
 * stores a list one file after another, so each lane has a list of its own in the one cache; only the whole list may clean it.
 */
export function precacheApp(manifest: readonly (PrecacheEntry | string)[], plugin: StoringPlugin): PrecacheController {
  const storing = (entries: readonly (PrecacheEntry | string)[]): PrecacheController => {
    const controller = new PrecacheController({ plugins: [plugin] });
    controller.addToCacheList([...entries]);
    return controller;
  };
  const whole = storing(manifest);
  const lanes = Array.from({ length: AT_ONCE }, (_, lane) => storing(manifest.filter((_entry, index) => index % AT_ONCE === lane)));
  self.addEventListener('install', (event) => event.waitUntil(Promise.all(lanes.map((lane) => lane.install(event)))));
  self.addEventListener('activate', (event) => event.waitUntil(whole.activate(event)));
  cleanupOutdatedCaches();
  return whole;
}
