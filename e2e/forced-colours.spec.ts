import { expect, type Page, test } from '@playwright/test';
import { openJobs } from './stored-jobs.ts';

/** How far the drawn word stands out from the ground behind it, in a screenshot: the share of pixels unlike the corner's. */
async function inkShare(page: Page, selector: string): Promise<number> {
  const picture = page.locator(selector).first();
  await picture.scrollIntoViewIfNeeded();
  const png = await picture.screenshot();
  return page.evaluate(
    async (bytes) => {
      const bitmap = await createImageBitmap(new Blob([new Uint8Array(bytes)], { type: 'image/png' }));
      const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
      const context = canvas.getContext('2d')!;
      context.drawImage(bitmap, 0, 0);
      const { data } = context.getImageData(0, 0, bitmap.width, bitmap.height);
      const [red = 0, green = 0, blue = 0] = data.slice(0, 3);
      let unlike = 0;
      for (let at = 0; at < data.length; at += 4)
        if (Math.abs(data[at]! - red) + Math.abs(data[at + 1]! - green) + Math.abs(data[at + 2]! - blue) > 240) unlike += 1;
      return unlike / (data.length / 4);
    },
    [...png],
  );
}

for (const colorScheme of ['dark', 'light'] as const) {
  test(`pictures stand out in ${colorScheme} forced colours`, async ({ browser, baseURL }) => {
    const context = await browser.newContext({ forcedColors: 'active', colorScheme, ...(baseURL === undefined ? {} : { baseURL }) });
    const page = await context.newPage();
    await openJobs(page);
    // The app's own day in a dark system, its night in a light one: the ink must be the system's all the same.
    await page.getByRole('switch', { name: /Chalk on dusk/ }).click();
    await page.locator('.job-drawing svg').first().waitFor();
    expect(await inkShare(page, '.job-drawing svg')).toBeGreaterThan(0.02);
    await page.getByRole('link', { name: 'Draw', exact: true }).first().click();
    await page.locator('.crowd-view .letter-picture svg').waitFor();
    expect(await inkShare(page, '.crowd-view .letter-picture svg')).toBeGreaterThan(0.02);
    await page.locator('.pilot-picture svg, .plan-pictures svg').first().waitFor();
    expect(await inkShare(page, '.plan-pictures svg')).toBeGreaterThan(0.003);
    await context.close();
  });
}

test('more contrast and a layout from right to left leave every word inside the page', async ({ browser, baseURL }) => {
  const context = await browser.newContext({ contrast: 'more', viewport: { width: 390, height: 844 }, ...(baseURL === undefined ? {} : { baseURL }) });
  const page = await context.newPage();
  await openJobs(page);
  await page.evaluate(() => (document.documentElement.dir = 'rtl'));
  for (const screen of ['draw', 'brief', 'debrief']) {
    await page.goto(`./#/${screen}/lake-ondine`);
    await page.waitForTimeout(1500);
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth), screen).toBeLessThanOrEqual(1);
  }
  await context.close();
});
