import { addPlugins, getCacheKeyForURL, type PrecacheEntry } from 'workbox-precaching';

declare const self: ServiceWorkerGlobalScope;

/** How far the storing of the app's files is. */
export interface InstallReport {
  readonly stored: number;
  readonly total: number;
  /** Why the last file could not be had; null while all could. */
  readonly fault: string | null;
}

/** Watches the storing of the app's files; the returned function says how far it is. To be called before it begins. */
export function watchInstall(manifest: readonly (PrecacheEntry | string)[]): () => Promise<InstallReport> {
  let fault: string | null = null;
  const noteFault = (url: string, why: string): void => {
    fault = `${new URL(url).pathname} ${why}`;
    void tellPages(fault);
  };
  addPlugins([
    {
      fetchDidFail: async ({ request }) => noteFault(request.url, 'could not be fetched'),
      fetchDidSucceed: async ({ request, response }) => {
        if (!response.ok) noteFault(request.url, `was answered with ${response.status}`);
        return response;
      },
    },
  ]);
  return async () => {
    const keys = manifest.map((entry) => getCacheKeyForURL(typeof entry === 'string' ? entry : entry.url));
    const name = (await caches.keys()).find((each) => each.includes('-precache-'));
    const stored = name === undefined ? [] : (await (await caches.open(name)).keys()).map(({ url }) => url);
    const there = new Set(stored);
    return { stored: keys.filter((key) => key !== undefined && there.has(key)).length, total: manifest.length, fault };
  };
}

/** A worker whose install fails is gone before it can be asked why. */
async function tellPages(fault: string): Promise<void> {
  for (const client of await self.clients.matchAll({ includeUncontrolled: true, type: 'window' })) client.postMessage({ type: 'INSTALL_FAULT', fault });
}
