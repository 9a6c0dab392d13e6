const CACHE = 'shared-files';
/** The platform hands a launched app its files through this queue (File Handling, WICG); not in every browser's types. */
interface LaunchQueue {
  setConsumer(consumer: (params: { readonly files?: readonly { getFile(): Promise<File> }[] }) => void): void;
}

/** Follows what the system gives the app: files opened with it, and files shared with it. Called with each lot. */
export function followGivenFiles(give: (files: readonly File[]) => void): void {
  const queue = (globalThis as unknown as { readonly launchQueue?: LaunchQueue }).launchQueue;
  queue?.setConsumer(({ files = [] }) => {
    if (files.length > 0) void Promise.all(files.map((handle) => handle.getFile())).then(give, () => {});
  });
  void sharedFiles().then(
    (files) => {
      if (files.length > 0) give(files);
    },
    () => {},
  );
}

/** What was shared and not taken up yet; taken out of where the service worker laid it. */
async function sharedFiles(): Promise<File[]> {
  if (typeof caches === 'undefined' || !(await caches.has(CACHE))) return [];
  const cache = await caches.open(CACHE);
  const files: File[] = [];
  for (const request of await cache.keys()) {
    const response = await cache.match(request);
    const name = decodeURIComponent(new URL(request.url).pathname.split('/').at(-1) ?? '');
    if (response !== undefined) files.push(new File([await response.blob()], name));
    await cache.delete(request);
  }
  return files;
}
