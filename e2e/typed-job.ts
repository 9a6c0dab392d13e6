import type { Page } from '@playwright/test';

/** A job as it is stored, read past the app: the parts that the tests type into. */
export interface TypedJob {
  readonly text: string;
  readonly notes: string;
}

/** Opens the demo job on Draw and unfolds what is not shown at once. */
export async function openDraw(page: Page, address = './'): Promise<void> {
  await page.goto(`${address}#/draw/lake-ondine`);
  await page.locator('[data-save]').waitFor();
  await page.evaluate(() => {
    for (const fold of document.querySelectorAll('details')) fold.open = true;
  });
}

export function storedDemoJob(page: Page): Promise<TypedJob> {
  return page.evaluate(
    () =>
      new Promise<TypedJob>((resolve, reject) => {
        const open = indexedDB.open('quillwind');
        open.onerror = () => reject(open.error);
        open.onsuccess = () => {
          const found = open.result.transaction('jobs').objectStore('jobs').get('lake-ondine');
          found.onsuccess = () => {
            open.result.close();
            resolve(JSON.parse((found.result as { fileText: string }).fileText) as TypedJob);
          };
        };
      }),
  );
}
