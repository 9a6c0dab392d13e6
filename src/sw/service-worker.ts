import type { PrecacheEntry } from 'workbox-precaching';
import { answerFromPrecache } from './answer.ts';
import { precacheApp } from './precache.ts';

declare const self: ServiceWorkerGlobalScope & { readonly __WB_MANIFEST: readonly (PrecacheEntry | string)[] };

precacheApp(self.__WB_MANIFEST);
answerFromPrecache();

// The page of the very first visit is served offline too, without being loaded again.
self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()));

// A new version waits until the page passes on the user's yes; the page asks only when no flight is in progress.
self.addEventListener('message', (event: ExtendableMessageEvent) => {
  const data: unknown = event.data;
  if (typeof data === 'object' && data !== null && 'type' in data && data.type === 'USER_SAID_YES') {
    event.waitUntil(self.skipWaiting());
  }
});
