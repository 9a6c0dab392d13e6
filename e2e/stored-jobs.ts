import type { Page } from '@playwright/test';

/** Ids of the jobs in the database, read past the app. */
export function storedJobIds(page: Page): Promise<string[]> {
  return page.evaluate(
    () =>
      new Promise<string[]>((resolve, reject) => {
        const open = indexedDB.open('quillwind');
        open.onerror = () => reject(open.error);
        open.onsuccess = () => {
          const keys = open.result.transaction('jobs').objectStore('jobs').getAllKeys();
          keys.onsuccess = () => {
            open.result.close();
            resolve(keys.result.map(String));
          };
        };
      }),
  );
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
