import { expect, test } from '@playwright/test';
import { accessibilityFindings } from './accessibility-findings.ts';
import { DEMO_JOB } from '../src/core/job/demo-job.ts';
import { flownDemo, putLog, storedLog } from './flown-log.ts';

const SIZES = [
  { width: 1024, height: 768 },
  { width: 768, height: 1024 },
  { width: 390, height: 844 },
  { width: 320, height: 640 },
];
const PANES = ['From below', 'From above', 'Over the ground', 'As the crowd saw it'];

const log = storedLog('flight-demo', DEMO_JOB, flownDemo(7).events);

for (const size of SIZES) {
  for (const appearance of ['day', 'night'] as const) {
    test(`Debrief at ${size.width} x ${size.height} by ${appearance}: nothing sideways, nothing inaccessible`, async ({ page }, info) => {
      test.setTimeout(120_000);
      await page.setViewportSize(size);
      await page.emulateMedia({ colorScheme: appearance === 'day' ? 'light' : 'dark' });
      await page.goto('./');
      await page.getByRole('heading', { name: 'Jobs', exact: true }).waitFor();
      await putLog(page, log);
      await page.goto('./#/debrief/lake-ondine');
      await page.reload();
      await expect(page.locator('.debrief[data-replayed="yes"]')).toBeVisible({ timeout: 60_000 });
      await page.evaluate(() => document.querySelectorAll('details').forEach((fold) => (fold.open = true)));
      for (const pane of PANES) {
        await page.getByRole('radio', { name: pane, exact: true }).check();
        await page.waitForTimeout(500);
        expect(await page.evaluate(() => document.documentElement.scrollWidth), pane).toBeLessThanOrEqual(size.width);
        await page.screenshot({ path: info.outputPath(`debrief-${pane.replaceAll(' ', '-')}.png`), fullPage: true });
        expect(await accessibilityFindings(page), pane).toEqual([]);
      }
    });
  }
}
