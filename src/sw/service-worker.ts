import type { PrecacheEntry } from 'workbox-precaching';
import { answerFromPrecache } from './answer.ts';
import { watchInstall } from './install-report.ts';
import { precacheApp } from './precache.ts';
import { takeSharedFiles } from './shared-files.ts';
import { shellReport } from './whole.ts';

declare const self: ServiceWorkerGlobalScope & { readonly __WB_MANIFEST: readonly (PrecacheEntry | string)[] };

// The build puts the list here, and it may be named once only.
const manifest = self.__WB_MANIFEST;
const install = watchInstall();
const precache = precacheApp(manifest, install.plugin);
answerFromPrecache(precache);
takeSharedFiles();

// The page of the very first visit is served offline too, without being loaded again.
self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()));

// A new version waits until the page passes on the user's yes; the page asks only when no flight is in progress.
self.addEventListener('message', (event: ExtendableMessageEvent) => {
  const data: unknown = event.data;
  if (typeof data !== 'object' || data === null || !('type' in data)) return;
  if (data.type === 'USER_SAID_YES') event.waitUntil(self.skipWaiting());
  const [port] = event.ports;
  if (data.type === 'HOW_FAR' && port !== undefined) event.waitUntil(install.howFar(manifest, precache).then((report) => port.postMessage(report)));
  if (data.type === 'IS_SHELL_WHOLE' && port !== undefined) event.waitUntil(shellReport(manifest, precache).then((report) => port.postMessage(report)));
});
