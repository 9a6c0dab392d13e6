import { expect, test } from '@playwright/test';
import { beginRehearsal } from '../write-flight.ts';
import { openJobs } from '../stored-jobs.ts';

test('the whole app runs under trusted types, and text becomes neither markup nor code', async ({ page }) => {
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  await openJobs(page);
  for (const screen of ['draw', 'brief', 'ground', 'debrief']) {
    await page.goto(`./#/${screen}/lake-ondine`);
    await expect(page.getByRole('main')).not.toBeEmpty();
    await page.waitForTimeout(500);
  }
  await beginRehearsal(page, 5);
  await expect(page.locator('[data-cue="phase"]')).toHaveAttribute('data-value', /run-in|stroke|reposition/, { timeout: 20_000 });
  expect(complaints).toEqual([]);

  const tried = await page.evaluate(() => {
    const refused = (act: () => unknown): boolean => {
      try {
        act();
        return false;
      } catch (error) {
        return error instanceof TypeError || error instanceof EvalError;
      }
    };
    return {
      supported: 'trustedTypes' in window,
      markup: refused(() => (document.createElement('div').innerHTML = '<b>bold</b>')),
      foreignWorker: refused(() => new Worker('https://example.org/worker.js')),
      code: refused(() => setTimeout('1' as unknown as () => void)),
      anotherPolicy: refused(() =>
        (window as unknown as { trustedTypes: { createPolicy(name: string, rules: object): unknown } }).trustedTypes.createPolicy('mine', {}),
      ),
    };
  });
  expect(tried).toEqual({ supported: true, markup: true, foreignWorker: true, code: true, anotherPolicy: true });
});
