// Takes the pictures of the README from the built app: npm run build, then node --import tsx e2e/pictures.ts
import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { createCanvas, loadImage } from '@napi-rs/canvas';
import { chromium, type Page } from '@playwright/test';
import { findChromium } from '../.ci/chromium.mjs';
import { flownDemo, putLog, storedLog } from './flown-log.ts';
import { DEMO_JOB } from '../src/core/job/demo-job.ts';
import { HANDS } from '../src/core/letters/hand.ts';
import { handSheet } from './hand-sheet.ts';
import serveDist from './serve-dist.ts';
import { openJobs } from './stored-jobs.ts';

const WIDTH_PIXELS = 512;
const folder = fileURLToPath(new URL('./pictures/', import.meta.url));

/** Half the size, which a README shows it at: a few tens of kilobytes. */
async function take(page: Page, name: string): Promise<void> {
  await page.evaluate(() => scrollTo(0, 0));
  const image = await loadImage(await page.screenshot());
  const canvas = createCanvas(WIDTH_PIXELS, Math.round((image.height * WIDTH_PIXELS) / image.width));
  const context = canvas.getContext('2d');
  context.imageSmoothingQuality = 'high';
  context.drawImage(image, 0, 0, canvas.width, canvas.height);
  const png = await canvas.encode('png');
  writeFileSync(`${folder}${name}.png`, png);
  console.log(`${name}.png, ${Math.round(png.byteLength / 1000)} kB`);
}

mkdirSync(folder, { recursive: true });
const endServing = await serveDist();
const browser = await chromium.launch({ executablePath: findChromium() ?? 'chromium', args: process.getuid?.() === 0 ? ['--no-sandbox'] : [] });
try {
  const context = await browser.newContext({
    baseURL: process.env['QUILLWIND_URL']!,
    viewport: { width: 1024, height: 768 },
    permissions: ['geolocation', 'screen-wake-lock'],
    colorScheme: 'light',
  });
  const page = await context.newPage();
  await openJobs(page);
  await page.getByRole('button', { name: 'I know my way' }).click();
  await take(page, 'jobs');
  for (const screen of ['draw', 'brief', 'ground'] as const) {
    await page.goto(`./#/${screen}/lake-ondine`);
    // The plan is made in a worker, and the sky is drawn after it.
    await page.waitForTimeout(6000);
    await take(page, screen);
  }
  await putLog(page, storedLog('flown', DEMO_JOB, flownDemo(7).events));
  await page.goto('./#/debrief/lake-ondine');
  await page.reload();
  await page.waitForTimeout(8000);
  await take(page, 'debrief');
  await page.emulateMedia({ colorScheme: 'dark' });
  await page.goto('./#/write/lake-ondine');
  await page.reload();
  await page.getByLabel(/^Pace/).fill('10');
  await page.getByRole('button', { name: 'Start rehearsal' }).click();
  await page.locator('[data-cue="phase"][data-value="stroke"]').waitFor({ timeout: 120_000 });
  await page.waitForTimeout(700);
  await take(page, 'write');
  const sheet = await browser.newPage({ viewport: { width: 1216, height: 430 }, colorScheme: 'light' });
  for (const hand of HANDS) {
    await sheet.setContent(handSheet(hand));
    writeFileSync(`${folder}hand-${hand}.png`, await sheet.screenshot());
  }
} finally {
  await browser.close();
  await endServing();
}
