import { expect, test } from '@playwright/test';
import { beginRehearsal } from './write-flight.ts';
import { openJobs, storedAt } from './stored-jobs.ts';

test('a first visit is shown round, can leave at once and is not asked again', async ({ page }) => {
  await openJobs(page);
  const tour = page.getByRole('complementary', { name: 'How a job goes' });
  await expect(tour).toBeVisible();
  // It stands above the fold, and nothing waits for it: the list is there and works.
  await expect(tour).toBeInViewport({ ratio: 1 });
  await expect(page.getByRole('article')).toHaveCount(1);
  await tour.getByRole('button', { name: 'Close' }).click();
  await expect(page.locator('.tour')).toHaveCount(0);
  // The card is gone before the store has it; whoever loads the page again in between is offered it once more.
  await expect.poll(() => storedAt(page, 'settings', 'tour-left')).toBe(true);
  await page.reload();
  await expect(page.getByRole('article')).toHaveCount(1);
  await page.waitForTimeout(500);
  await expect(page.locator('.tour')).toHaveCount(0);

  await page.getByRole('button', { name: 'How a job goes' }).click();
  for (const title of ['Draw', 'Brief', 'Write', 'Ground', 'Debrief']) await expect(tour.getByRole('link', { name: title, exact: true })).toBeVisible();
  await tour.getByRole('link', { name: 'Debrief' }).click();
  await expect(page).toHaveURL(/#\/debrief\/lake-ondine$/);
});

test('no flight ever meets the tour', async ({ page }) => {
  await openJobs(page);
  await expect(page.locator('.tour')).toBeVisible();
  await beginRehearsal(page, 2);
  await expect(page.locator('[data-cue="phase"]')).toHaveAttribute('data-value', /run-in|stroke|reposition|go-around/, { timeout: 20_000 });
  await expect(page.locator('.tour')).toHaveCount(0);
  await page.evaluate(() => (location.hash = '#/jobs'));
  await page.waitForTimeout(500);
  await expect(page.locator('.tour')).toHaveCount(0);
  await page.reload();
  await expect(page.locator('[data-cue="phase"]')).toHaveAttribute('data-value', /run-in|stroke|reposition|go-around/, { timeout: 20_000 });
  await expect(page.locator('.tour')).toHaveCount(0);
});
