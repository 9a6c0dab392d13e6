import type { PrecacheController, PrecacheEntry } from 'workbox-precaching';

declare const self: ServiceWorkerGlobalScope;

/** What the library tells of each file. */
export type StoringPlugin = NonNullable<NonNullable<ConstructorParameters<typeof PrecacheController>[0]>['plugins']>[number];

/** How far the storing of the app's files is. */
export interface InstallReport {
  readonly stored: number;
  readonly total: number;
  /** Why the last file could not be had; null while all could. */
  readonly fault: string | null;
}

/** The watch over the storing of the app's files. */
export interface InstallWatch {
  /** To be among those of the storing. */
  readonly plugin: StoringPlugin;
  howFar(manifest: readonly (PrecacheEntry | string)[], precache: PrecacheController): Promise<InstallReport>;
}

/** Watches the storing of the app's files, and tells the pages what could not be had. */
export function watchInstall(): InstallWatch {
  let fault: string | null = null;
  const noteFault = (url: string, why: string): void => {
    fault = `${new URL(url).pathname} ${why}`;
    void tellPages(fault);
  };
  return {
    plugin: {
      fetchDidFail: async ({ request }) => noteFault(request.url, 'could not be fetched'),
      fetchDidSucceed: async ({ request, response }) => {
        if (!response.ok) noteFault(request.url, `was answered with ${response.status}`);
        return response;
      },
    },
    async howFar(manifest, precache) {
      const keys = manifest.map((entry) => precache.getCacheKeyForURL(typeof entry === 'string' ? entry : entry.url));
      const name = (await caches.keys()).find((each) => each.includes('-precache-'));
      const stored = name === undefined ? [] : (await (await caches.open(name)).keys()).map(({ url }) => url);
      const there = new Set(stored);
      return { stored: keys.filter((key) => key !== undefined && there.has(key)).length, total: manifest.length, fault };
    },
  };
}

/** A worker whose install fails is gone before it can be asked why. */
async function tellPages(fault: string): Promise<void> {
  for (const client of await self.clients.matchAll({ includeUncontrolled: true, type: 'window' })) client.postMessage({ type: 'INSTALL_FAULT', fault });
}
