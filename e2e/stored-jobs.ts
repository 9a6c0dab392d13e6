import type { Page } from '@playwright/test';

/** What stands in a store of the database under a key, read past the app; undefined where nothing does. */
export function storedAt(page: Page, store: string, key: string): Promise<unknown> {
  return page.evaluate(
    ([name, at]) =>
      new Promise<unknown>((resolve, reject) => {
        const open = indexedDB.open('quillwind');
        open.onerror = () => reject(open.error);
        open.onsuccess = () => {
          const found = open.result.transaction(name).objectStore(name).get(at);
          found.onsuccess = () => {
            open.result.close();
            resolve(found.result);
          };
        };
      }),
    [store, key] as const,
  );
}

/** All that stands in a store, or what is there under keys that begin so, read past the app. */
export function allStored(page: Page, store: string, prefix?: string): Promise<readonly unknown[]> {
  return page.evaluate(
    ([name, beginning]) =>
      new Promise<readonly unknown[]>((resolve, reject) => {
        const open = indexedDB.open('quillwind');
        open.onerror = () => reject(open.error);
        open.onsuccess = () => {
          const range = beginning === undefined ? null : IDBKeyRange.bound(beginning, `${beginning}\uffff`);
          const found = open.result.transaction(name).objectStore(name).getAll(range);
          found.onsuccess = () => {
            open.result.close();
            resolve(found.result);
          };
        };
      }),
    [store, prefix] as const,
  );
}

/** Ids of the jobs in the database. */
export async function storedJobIds(page: Page): Promise<string[]> {
  return (await allStored(page, 'jobs')).map((job) => (job as { readonly id: string }).id);
}

/** A job's file as it is stored; undefined where it is not. */
export async function storedJobText(page: Page, id: string): Promise<string | undefined> {
  return ((await storedAt(page, 'jobs', id)) as { readonly fileText: string } | undefined)?.fileText;
}

/** Writes a raw record past the app. */
export function putRaw(page: Page, store: string, record: unknown): Promise<void> {
  return page.evaluate(
    ([name, value]) =>
      new Promise<void>((resolve, reject) => {
        const open = indexedDB.open('quillwind');
        open.onerror = () => reject(open.error);
        open.onsuccess = () => {
          const transaction = open.result.transaction(name, 'readwrite');
          transaction.objectStore(name).put(value);
          transaction.oncomplete = () => {
            open.result.close();
            resolve();
          };
        };
      }),
    [store, record] as const,
  );
}

/** Opens the Jobs screen and waits until the app is on the device. */
export async function openJobs(page: Page, address = './'): Promise<void> {
  await page.goto(address);
  await page.locator('[data-shell="complete"]').waitFor();
  await page.getByRole('heading', { name: 'Jobs', exact: true }).waitFor();
}
