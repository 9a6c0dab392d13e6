import type { Page } from '@playwright/test';
import type { Job } from '../src/core/job/job.ts';
import { storedJobText } from './stored-jobs.ts';

/** Opens the demo job on Draw and unfolds what is not shown at once. */
export async function openDraw(page: Page, address = './'): Promise<void> {
  await page.goto(`${address}#/draw/lake-ondine`);
  await page.locator('[data-save]').waitFor();
  await page.evaluate(() => {
    for (const fold of document.querySelectorAll('details')) fold.open = true;
  });
}

/** The demo job as it is stored, read past the app. */
export async function storedDemoJob(page: Page): Promise<Job> {
  return JSON.parse((await storedJobText(page, 'lake-ondine')) ?? 'null') as Job;
}
