import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, type Page, test } from '@playwright/test';
import { createServer, type ViteDevServer } from 'vite';

const SIZES = [
  { width: 1024, height: 768 },
  { width: 768, height: 1024 },
  { width: 390, height: 844 },
  { width: 320, height: 640 },
];
const FONTS = fileURLToPath(new URL('./pictures/parts-fonts.json', import.meta.url));

let server: ViteDevServer;

/** The page of all parts is in no build. */
test.beforeAll(async () => {
  server = await createServer({ configFile: fileURLToPath(new URL('../vite.config.ts', import.meta.url)), server: { port: 0 }, logLevel: 'error' });
  await server.listen();
});
test.afterAll(() => server.close());

/** How wide the words and titles of this machine are: with other fonts every picture is another, and says nothing. */
function fontWidths(page: Page): Promise<readonly number[]> {
  return page.evaluate(() =>
    ['h1', 'p', 'button'].map((name) => {
      const { fontFamily } = getComputedStyle(document.querySelector(name)!);
      const context = document.createElement('canvas').getContext('2d')!;
      context.font = `100px ${fontFamily}`;
      return Math.round(context.measureText('Hamburgefonstiv 0123456789').width);
    }),
  );
}

for (const size of SIZES) {
  for (const appearance of ['day', 'night'] as const) {
    test(`the parts of all screens look as they did, at ${size.width} x ${size.height} by ${appearance}`, async ({ page }, info) => {
      await page.setViewportSize(size);
      await page.goto(`${server.resolvedUrls?.local[0] ?? ''}ui/style/page.html?appearance=${appearance}`);
      await page.locator('main h1').waitFor();
      const widths = await fontWidths(page);
      if (['all', 'changed'].includes(info.config.updateSnapshots)) writeFileSync(FONTS, `${JSON.stringify(widths)}\n`);
      test.skip(
        JSON.stringify(widths) !== readFileSync(FONTS, 'utf8').trim(),
        'other fonts than those of the pictures: npx playwright test parts-look --update-snapshots',
      );
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(size.width);
      await expect(page).toHaveScreenshot(`parts-${size.width}-${appearance}.png`, { fullPage: true, maxDiffPixelRatio: 0.002 });
    });
  }
}
