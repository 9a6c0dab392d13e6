import { readFileSync } from 'node:fs';
import { expect, type Page, test } from '@playwright/test';
import { DEMO_JOB } from '../../src/core/job/demo-job.ts';
import { flownDemo, putLog, storedLog } from '../flown-log.ts';
import { allStored, openJobs } from '../stored-jobs.ts';

const PASSWORD = 'correct-horse-4711';

/** As the link's own form stores them. */
function keepLinkSettings(page: Page): Promise<void> {
  return page.evaluate(
    (password) =>
      new Promise<void>((resolve) => {
        const open = indexedDB.open('quillwind');
        open.onsuccess = () => {
          const transaction = open.result.transaction('settings', 'readwrite');
          transaction.objectStore('settings').put({ address: 'wss://localhost:1/link', user: 'lead', password, on: true }, 'link');
          transaction.oncomplete = () => {
            open.result.close();
            resolve();
          };
        };
      }),
    PASSWORD,
  );
}

test('the link’s password is in no export, no log, no code on a screen and no address', async ({ page }) => {
  await openJobs(page);
  await keepLinkSettings(page);
  await putLog(page, storedLog('flight-demo', DEMO_JOB, flownDemo(11).events));
  await page.reload();
  const files: string[] = [];
  const given = async (button: string): Promise<void> => {
    const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: button, exact: true }).click()]);
    files.push(readFileSync(await download.path(), 'utf8'));
  };
  await given('Export');
  await page.goto('./#/ground/lake-ondine');
  await page.waitForTimeout(1500);
  files.push(await page.content(), page.url());
  await page.goto('./#/debrief/lake-ondine');
  await expect(page.locator('.debrief[data-replayed="yes"]')).toBeVisible({ timeout: 60_000 });
  await page.evaluate(() => document.querySelectorAll('details').forEach((fold) => (fold.open = true)));
  for (const format of ['GPX', 'KML', 'GeoJSON', 'CSV', 'IGC']) await given(format);
  files.push(JSON.stringify(await Promise.all(['jobs', 'flights', 'rows', 'outbox'].map((store) => allStored(page, store)))));
  expect(files).toHaveLength(9);
  expect(files.every((file) => file.length > 10)).toBe(true);
  expect(files.filter((file) => file.includes(PASSWORD))).toEqual([]);
});
