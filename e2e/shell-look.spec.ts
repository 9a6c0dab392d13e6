import { expect, test } from '@playwright/test';
import { accessibilityFindings } from './accessibility-findings.ts';
import { openJobs, putRaw } from './stored-jobs.ts';

const SIZES = [
  { width: 1024, height: 768 },
  { width: 768, height: 1024 },
  { width: 390, height: 844 },
  { width: 320, height: 640 },
];

for (const size of SIZES) {
  for (const appearance of ['day', 'night'] as const) {
    test(`Jobs at ${size.width} x ${size.height} by ${appearance}: nothing sideways, nothing too small, nothing inaccessible`, async ({ page }, info) => {
      await page.setViewportSize(size);
      await page.emulateMedia({ colorScheme: appearance === 'day' ? 'light' : 'dark' });
      await openJobs(page);
      await putRaw(page, 'jobs', { id: 'torn', name: 'Harbour night', savedAtMilliseconds: 1, fileText: '{' });
      await page.reload();
      await page.getByLabel('Job files to import').setInputFiles([{ name: 'broken.json', mimeType: 'application/json', buffer: Buffer.from('{') }]);
      await expect(page.getByRole('alert')).toHaveCount(2);
      expect(await page.evaluate(() => document.documentElement.dataset['appearance'])).toBe(appearance);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(size.width);

      const small = await page.locator('button:visible, a:visible').evaluateAll((elements) =>
        elements
          .map((element) => ({ text: element.textContent, box: element.getBoundingClientRect() }))
          .filter(({ box }) => box.height < 44 || box.width < 44)
          .map(({ text }) => text),
      );
      expect(small).toEqual([]);

      expect(await accessibilityFindings(page)).toEqual([]);
      await page.screenshot({ path: info.outputPath('jobs.png'), fullPage: true });
    });
  }
}

test('every screen is at most as wide as a split view of 320 px', async ({ page }) => {
  await page.setViewportSize({ width: 320, height: 640 });
  await openJobs(page);
  for (const screen of ['draw', 'brief', 'write', 'ground', 'debrief']) {
    await page.goto(`./#/${screen}/lake-ondine`);
    await expect(page.getByText(/^Opening/)).toHaveCount(0);
    await page.waitForTimeout(400);
    expect(await page.evaluate(() => document.documentElement.scrollWidth), screen).toBeLessThanOrEqual(320);
  }
});

test('a screen that is opened first shows letters as strokes, not as filled shapes', async ({ page }) => {
  await openJobs(page);
  for (const screen of ['draw', 'brief', 'write']) {
    await page.goto('about:blank');
    await page.goto(`./#/${screen}/lake-ondine`);
    if (screen === 'brief') await page.getByRole('button', { name: 'Client' }).click();
    const ink = page.locator('.letter-picture path.ink').first();
    await ink.waitFor({ state: 'attached', timeout: 30_000 });
    // Ink is a brush stroke drawn as an outline of its own, or a line: never the plain path filled black.
    expect(await ink.evaluate((path) => getComputedStyle(path).fill), screen).not.toBe('rgb(0, 0, 0)');
  }
});

test('day or night stays as it was chosen', async ({ page }) => {
  await page.emulateMedia({ colorScheme: 'light' });
  await openJobs(page);
  await page.getByRole('switch', { name: /Chalk on dusk/ }).click();
  await expect(page.locator('html')).toHaveAttribute('data-appearance', 'night');
  await page.reload();
  await expect(page.locator('html')).toHaveAttribute('data-appearance', 'night');
  await expect(page.locator('meta[name="theme-color"]')).toHaveAttribute('content', '#1a2231');
});
