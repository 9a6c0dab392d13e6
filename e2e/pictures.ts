// Takes the pictures of the README from the built app: npm run build, then node --import tsx e2e/pictures.ts
import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { createCanvas, GifEncoder, loadImage } from '@napi-rs/canvas';
import { chromium, type Page } from '@playwright/test';
import { findChromium } from '../.ci/chromium.mjs';
import { flownDemo, putLog, storedLog } from './flown-log.ts';
import { DEMO_JOB } from '../src/core/job/demo-job.ts';
import { HANDS } from '../src/core/letters/hand.ts';
import { handSheet, joinedSheet } from './hand-sheet.ts';
import serveDist from './serve-dist.ts';
import { openJobs } from './stored-jobs.ts';

/** Twice the width at which the README shows them. */
const WIDTH_PIXELS = 1024;
/** A film of a rehearsal: its size, how often a picture is taken, how many at most, and how long each is shown. */
const FILM = { widthPixels: 640, heightPixels: 480, everyMilliseconds: 120, pictures: 150, shownMilliseconds: 90 } as const;
const folder = fileURLToPath(new URL('./pictures/', import.meta.url));

/** As the README shows it. */
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

/** A rehearsal from its first smoke to its end, fast, as an endless film. */
async function film(page: Page): Promise<void> {
  const { widthPixels, heightPixels } = FILM;
  const encoder = new GifEncoder(widthPixels, heightPixels, { repeat: 0, quality: 20 });
  const canvas = createCanvas(widthPixels, heightPixels);
  const context = canvas.getContext('2d');
  context.imageSmoothingQuality = 'high';
  for (let taken = 0; taken < FILM.pictures; taken += 1) {
    const image = await loadImage(await page.screenshot());
    context.drawImage(image, 0, 0, widthPixels, heightPixels);
    const finished = (await page.locator('[data-cue="phase"]').getAttribute('data-value')) === 'finished';
    const { data } = context.getImageData(0, 0, widthPixels, heightPixels);
    encoder.addFrame(new Uint8Array(data.buffer), widthPixels, heightPixels, { delay: finished ? 3_000 : FILM.shownMilliseconds });
    if (finished) break;
    await page.waitForTimeout(FILM.everyMilliseconds);
  }
  const gif = encoder.finish();
  writeFileSync(`${folder}rehearsal.gif`, gif);
  console.log(`rehearsal.gif, ${Math.round(gif.byteLength / 1000)} kB`);
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
  await page.getByRole('button', { name: 'Close', exact: true }).click();
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
  await page.emulateMedia({ colorScheme: 'light' });
  await page.getByLabel('Pace').selectOption('20');
  await film(page);
  const sheet = await browser.newPage({ viewport: { width: 1216, height: 430 }, colorScheme: 'light' });
  for (const hand of HANDS) {
    await sheet.setContent(hand === 'joined' ? joinedSheet() : handSheet(hand));
    writeFileSync(`${folder}hand-${hand}.png`, await sheet.screenshot());
  }
} finally {
  await browser.close();
  await endServing();
}
