import { readFile } from 'node:fs/promises';
import { expect, type Page, test } from '@playwright/test';
import { openJobs } from './stored-jobs.ts';

const OVERLAY = JSON.stringify({
  type: 'FeatureCollection',
  features: [
    {
      type: 'Feature',
      properties: { name: 'Bird sanctuary' },
      geometry: {
        type: 'Polygon',
        coordinates: [
          [
            [-74.5, 43.9],
            [-74.4, 43.9],
            [-74.4, 43.95],
            [-74.5, 43.9],
          ],
        ],
      },
    },
  ],
});

async function backUp(page: Page): Promise<Buffer> {
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Make a backup' }).click();
  const file = await download;
  expect(file.suggestedFilename()).toMatch(/^quillwind-backup-\d{4}-\d\d-\d\d\.quillwind$/);
  await expect(page.locator('[data-backup="made"]')).toBeVisible();
  return readFile(await file.path());
}

async function restore(page: Page, bytes: Buffer): Promise<void> {
  await page.getByLabel('Backup to restore').setInputFiles({ name: 'b.quillwind', mimeType: 'application/x-quillwind', buffer: bytes });
  await expect(page.locator('[data-backup="restored"]')).toBeVisible();
}

const lines = (bytes: Buffer): string[] => bytes.toString('utf8').split('\n').slice(1);

test('everything goes into one file and comes back on an empty device, twice without doubles', async ({ page, browser, baseURL }) => {
  await openJobs(page);
  await page.getByRole('link', { name: 'Draw', exact: true }).first().click();
  await page
    .getByRole('radio', { name: 'Go or no-go' })
    .or(page.getByRole('button', { name: 'Go or no-go' }))
    .or(page.getByText('Go or no-go'))
    .first()
    .click();
  await page
    .locator('.overlay-entry input[type=file], input[type=file][accept*=geojson]')
    .first()
    .setInputFiles({ name: 'areas.geojson', mimeType: 'application/geo+json', buffer: Buffer.from(OVERLAY) });
  await expect(page.getByText('areas.geojson')).toBeVisible();
  await page.getByRole('link', { name: 'Jobs', exact: true }).click();
  await page.getByRole('button', { name: 'Duplicate' }).click();
  await expect(page.locator('.job-card')).toHaveCount(2);
  const file = await backUp(page);

  const context = await browser.newContext(baseURL === undefined ? {} : { baseURL });
  const fresh = await context.newPage();
  await openJobs(fresh);
  await fresh.getByRole('button', { name: 'Delete' }).click();
  await expect(fresh.locator('.job-card')).toHaveCount(0);
  await restore(fresh, file);
  await expect(fresh.locator('.job-card')).toHaveCount(2);
  expect(lines(await backUp(fresh))).toEqual(lines(file));
  await restore(fresh, file);
  await expect(fresh.locator('[data-added="0"]')).toBeVisible();
  await expect(fresh.locator('.job-card')).toHaveCount(2);

  // A job given away takes its overlay along.
  const download = fresh.waitForEvent('download');
  await fresh.locator('.job-card').filter({ hasText: '(copy)' }).getByRole('button', { name: 'Export' }).click();
  const given = await download;
  expect(given.suggestedFilename()).toBe('lake-ondine-regatta-demo-copy.quillwind');
  await fresh.getByRole('button', { name: 'Delete' }).first().click();
  await fresh.getByRole('button', { name: 'Delete' }).first().click();
  await restore(fresh, await readFile(await given.path()));
  await expect(fresh.locator('.job-card')).toHaveCount(1);
  await fresh.getByRole('link', { name: 'Draw', exact: true }).first().click();
  await fresh.getByRole('radio', { name: 'Go or no-go' }).check({ force: true });
  await expect(fresh.getByText('areas.geojson')).toBeVisible();
  await context.close();
});

test('a backup that is cut or changed says what is missing, and the rest is taken', async ({ page }) => {
  await openJobs(page);
  await page.getByRole('button', { name: 'Duplicate' }).click();
  await expect(page.locator('.job-card')).toHaveCount(2);
  const whole = await backUp(page);
  const broken = whole.toString('utf8').replace(/("job","[^"]*-?[^"]*",.{40})./, '$1~');
  await page.getByRole('button', { name: 'Delete' }).first().click();
  await expect(page.locator('.job-card')).toHaveCount(1);
  await page.getByRole('button', { name: 'Delete' }).click();
  await expect(page.locator('.job-card')).toHaveCount(0);
  await restore(page, Buffer.from(broken));
  await expect(page.locator('.job-card')).toHaveCount(1);
  await expect(page.locator('[data-refused="1"]')).toContainText('damaged');
  await page.getByLabel('Backup to restore').setInputFiles({ name: 'x.quillwind', mimeType: 'text/plain', buffer: Buffer.from('a letter from home') });
  await expect(page.locator('[data-refused="1"]')).toContainText('This is not a backup.');
});

test('a recorded flight dropped on Jobs goes to the debrief that is chosen', async ({ page }) => {
  await openJobs(page);
  const gpx = `<?xml version="1.0"?><gpx version="1.1" creator="recorder" xmlns="http://www.topografix.com/GPX/1/1"><trk><name>Wing</name><trkseg>${Array.from(
    { length: 120 },
    (_, second) =>
      `<trkpt lat="${(43.87 + second * 4e-4).toFixed(6)}" lon="-74.43"><ele>3200</ele><time>2027-06-19T17:${String(10 + Math.floor(second / 60)).padStart(2, '0')}:${String(second % 60).padStart(2, '0')}Z</time></trkpt>`,
  ).join('')}</trkseg></trk></gpx>`;
  await page.getByLabel('Job files to import').setInputFiles({ name: 'wing.gpx', mimeType: 'application/gpx+xml', buffer: Buffer.from(gpx) });
  await expect(page.locator('[data-tracks="1"]')).toContainText('wing.gpx is a recorded flight, not a job');
  await page
    .locator('[data-tracks="1"]')
    .getByRole('button', { name: /Lake Ondine/ })
    .click();
  await expect(page.getByRole('heading', { name: 'Debrief' })).toBeVisible();
  await expect(page.getByText('A track was imported.')).toBeVisible();
});
