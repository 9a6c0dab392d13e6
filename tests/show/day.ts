import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, chromium, type Page } from '@playwright/test';
import { findChromium } from '../../.ci/chromium.mjs';
import { killBrowserOf } from '../../e2e/browser-kill.ts';
import serveDist from '../../e2e/serve-dist.ts';
import { openJobs } from '../../e2e/stored-jobs.ts';
import { DEMO_JOB } from '../../src/core/job/demo-job.ts';
import { uniformFrom } from '../flight/random.ts';
import { countStored, putSeason, SEASON, type StoredParts } from './day-season.ts';
import type { Figure, Shown } from './figures.ts';
import { atLeast, atMost, reported } from './limits.ts';

const LAUNCH = { executablePath: findChromium() ?? 'chromium', args: ['--no-sandbox'] };
/** What no sheet of another job may show: the demo's values, and what empty entries once began with. */
const NEVER = [/Ondine/, /122\.75/, /123\.3/, /Knock it off/, /074\u00b0/, /EDT/, /270\u00b0T? ?\/ ?10 kt/, /\b6,000 ft/];
const KILLS = Number(process.env['QUILLWIND_KILLS'] ?? 20);
const PARTS = process.env['QUILLWIND_PARTS']?.split(';') ?? null;
const isPart = (part: string): boolean => PARTS === null || PARTS.includes(part);

/**
 * A working day: a booking entered by the screens alone, sheets searched for invented values, rehearsed, closed; a season
 * backed up, restored on an empty profile, and restored under 20 kills.
 */
export async function showDay(): Promise<Shown> {
  const end = await serveDist();
  const address = process.env['QUILLWIND_URL'] ?? '';
  const browser = await chromium.launch(LAUNCH);
  const figures: Figure[] = [];
  const told = (more: readonly Figure[]): void => {
    figures.push(...more);
    for (const { name, value, ok } of more) process.stdout.write(`      ${ok ? 'OK   ' : 'SHORT'} ${name}: ${value}\n`);
  };
  try {
    if (isPart('booking')) told(await bookingFigures(browser, address));
    const { bytes, found } = await backupFigures(browser, address);
    if (isPart('backup')) told(found);
    if (isPart('kills')) told(await killFigures(address, bytes));
  } finally {
    await browser.close();
    await end();
  }
  const gestures = figures[0]?.value ?? '';
  return {
    figures,
    headline: `A booking by telephone in ${gestures}, its sheets without an invented value; a season backed up and restored the same to the digest, and never less after ${KILLS} kills.`,
  };
}

const WINDS = `time,height (ft),dir,speed (kt),temp
${['2028-02-20', '2028-02-21']
  .flatMap((day, index) =>
    [3000, 6000, 9000, 12_000].map((feet) => `${day}T15:00Z,${feet},${110 + feet / 300},${8 + index * 6 + feet / 1500},${24 - feet / 500}`),
  )
  .join('\n')}`;

async function bookingFigures(browser: Browser, address: string): Promise<Figure[]> {
  const context = await browser.newContext({ timezoneId: 'America/Recife', baseURL: address, viewport: { width: 1024, height: 768 } });
  const page = await context.newPage();
  const wrong: string[] = [];
  page.on('pageerror', (error) => wrong.push(error.message));
  await openJobs(page);
  await putKeptShip(page);
  let gestures = 0;
  const touch = async (action: Promise<unknown>): Promise<void> => {
    await action;
    gestures += 1;
  };
  const fold = (title: string): Promise<void> => page.locator('details.fold').filter({ hasText: title }).first().locator('summary').click();
  const place = page.locator('.place-settings');
  await touch(page.getByRole('button', { name: 'New job', exact: true }).click());
  await touch(page.getByLabel('Words in the sky').fill('SOL'));
  await touch(fold('Booking'));
  await touch(page.getByLabel('Name of the job').fill('Festa do Farol'));
  await touch(page.getByLabel('Client', { exact: true }).fill('Clube do Farol'));
  await touch(page.getByLabel('Words that call it off').fill('Para tudo'));
  await touch(
    page
      .getByLabel('Frequency in megahertz')
      .fill('127.45')
      .then(() => page.keyboard.press('Enter')),
  );
  await touch(fold('Where and when'));
  await touch(page.getByLabel('Position, pasted in any form').fill('8\u00b0 03,0\u2032 S 34\u00b0 52,2\u2032 W'));
  await touch(place.getByLabel('Name', { exact: true }).fill('Farol de Olinda'));
  await touch(place.getByLabel('Elevation, ft', { exact: true }).fill('12'));
  await touch(place.getByLabel('Crowd looks towards, true', { exact: true }).fill('200'));
  await touch(place.getByLabel('Layer, above sea level', { exact: true }).fill('2896 m'));
  await touch(page.getByLabel(/^Read at/).fill('2028-02-20T12:00'));
  await touch(
    page
      .getByLabel('Position of another viewing place')
      .fill('8.07 S 34.85 W')
      .then(() => page.keyboard.press('Enter')),
  );
  await touch(fold('Ships'));
  await touch(page.getByLabel('Kept ships').selectOption({ label: 'Farolete' }));
  await touch(page.locator('.ships-settings').getByRole('radio', { name: '2', exact: true }).check({ force: true }));
  await touch(fold('Winds aloft'));
  await touch(page.getByLabel(/^Bulletin, pasted/).fill(WINDS));
  await touch(page.getByRole('button', { name: /^Keep these 2 hours/ }).click());
  await touch(page.getByRole('button', { name: 'Plan with these' }).first().click());
  await page.locator('[data-save="saved"]').waitFor();
  await touch(page.getByRole('link', { name: 'Brief', exact: true }).click());
  const sheets: string[] = [];
  for (const sheet of ['Kneeboard cards', 'Controller', 'Client', 'Day and radio']) {
    await page.getByRole('button', { name: sheet }).click();
    await page.locator('.sheet').first().waitFor();
    sheets.push(await page.locator('.brief').innerText());
  }
  // The sheets stand ready to be printed: one touch more.
  gestures += 1;
  const found = NEVER.filter((value) => sheets.some((text) => value.test(text))).map(String);
  const unmade = sheets.filter((text) => text.includes('Not to be flown from')).length;
  const named = ['Festa do Farol', 'Farol de Olinda', 'Para tudo', '127.450'].filter((value) => sheets.some((text) => text.includes(value)));
  const missing = /Not entered: ([^.]*)\./.exec(sheets[3] ?? '')?.[1] ?? '';
  const rubbish = await rubbishFigure(page, address);
  const rehearsed = await rehearseFigure(page);
  await context.close();
  return [
    atMost('gestures from a telephone call to sheets', gestures, 24, '', 0),
    atMost('values of the demo, or invented, on four sheets', found.length, 0, found.join(' '), 0),
    atMost('sheets that could not be made', unmade, 0, '', 0),
    atLeast('entered values found on them', named.length, 4, 'of 4', 0),
    reported('named as not entered on the day sheet', missing === '' ? 'nothing' : missing),
    rubbish,
    ...rehearsed,
    atMost('errors of the page over all of it', wrong.length, 0, wrong[0] ?? '', 0),
  ];
}

/** A ship kept from an earlier season. */
async function putKeptShip(page: Page): Promise<void> {
  const [lead] = DEMO_JOB.ships;
  const ship = {
    ...lead,
    name: 'Farolete',
    keptId: 'farolete',
    trueAirspeedKnots: 98,
    smokeOilPounds: 350,
    fuelGallons: 33,
    writingBankDegrees: 44,
    turningBankDegrees: 44,
  };
  await page.evaluate(
    (kept) =>
      new Promise<void>((resolve) => {
        const open = indexedDB.open('quillwind');
        open.onsuccess = () => {
          const transaction = open.result.transaction('settings', 'readwrite');
          transaction.objectStore('settings').put(kept, 'kept-things');
          transaction.oncomplete = () => {
            open.result.close();
            resolve();
          };
        };
      }),
    { ships: [{ id: 'farolete', savedAtMilliseconds: 1, ship }], sites: [], crew: [], oils: [] },
  );
  await page.reload();
}

const settingsOf = (page: Page, keys: readonly string[]): Promise<string> =>
  page.evaluate(
    (wanted) =>
      new Promise<string>((resolve) => {
        const open = indexedDB.open('quillwind');
        open.onsuccess = () => {
          const store = open.result.transaction('settings').objectStore('settings');
          const reads = wanted.map((key) => store.get(key));
          store.transaction.oncomplete = () => {
            open.result.close();
            resolve(JSON.stringify(reads.map((read) => read.result ?? null)));
          };
        };
      }),
    keys,
  );

/** Rubbish in every number of Draw: each says what is wrong, and the stored job stays as it was. */
async function rubbishFigure(page: Page, address: string): Promise<Figure> {
  const jobOf = (): Promise<string> =>
    page.evaluate(
      () =>
        new Promise<string>((resolve) => {
          const open = indexedDB.open('quillwind');
          open.onsuccess = () => {
            const all = open.result.transaction('jobs').objectStore('jobs').getAll();
            all.onsuccess = () => {
              open.result.close();
              resolve(JSON.stringify(all.result.map(({ fileText }: { fileText: string }) => fileText)));
            };
          };
        }),
    );
  await page.getByRole('link', { name: 'Draw', exact: true }).click();
  await page.locator('.plan-entries').waitFor();
  const before = await jobOf();
  for (const title of ['Booking', 'Order', 'Ships', 'Where and when', 'Winds aloft'])
    await page.locator('details.fold').filter({ hasText: title }).first().locator('summary').click();
  const inputs = page.locator('.plan-entries input[inputmode="decimal"]');
  const count = await inputs.count();
  let said = 0;
  const silent: string[] = [];
  for (let index = 0; index < count; index += 1) {
    const input = inputs.nth(index);
    await input.fill('12 furlongs?');
    const invalid = (await input.getAttribute('aria-invalid')) === 'true';
    const id = await input.getAttribute('aria-describedby');
    const words = id === null ? '' : await page.locator(`[id="${id}"]`).innerText();
    if (invalid && words.length > 10) said += 1;
    else silent.push((await input.getAttribute('aria-label')) ?? (await input.getAttribute('id')) ?? '');
    await input.press('Escape');
  }
  await page.waitForTimeout(800);
  const kept = (await jobOf()) === before;
  await page.goto(`${address}#/jobs`);
  return {
    ...atLeast(
      'entries that say what is wrong with rubbish, nothing lost',
      kept ? said : 0,
      count,
      `of ${count}${silent.length > 0 ? ` (not: ${silent.slice(0, 3).join('; ')})` : ''}`,
      0,
    ),
  };
}

/** The booking is rehearsed at twenty times the clock and closed; nothing that is kept changes. */
async function rehearseFigure(page: Page): Promise<Figure[]> {
  const kept = ['kept-things', 'lessons/learnt', 'smoke-calibration'];
  const before = await settingsOf(page, kept);
  await page.locator('.job-card').filter({ hasText: 'Festa do Farol' }).getByRole('link', { name: 'Write' }).click();
  await page
    .getByRole('button', { name: /^Start/ })
    .first()
    .waitFor();
  await page.getByLabel(/^Pace/).fill('20');
  // With two ships nothing is chosen for anybody: which ship, and how the clocks are started.
  await page.getByRole('radio', { name: /^Time hack/ }).check();
  await page.getByLabel('First smoke after the call').selectOption({ index: 0 });
  await page.getByLabel('This ship is').selectOption('0');
  await page.getByRole('button', { name: /^Start rehearsal/ }).click();
  await page.locator('[data-cue="phase"][data-value="finished"]').waitFor({ state: 'attached', timeout: 170_000 });
  await page.getByRole('button', { name: /^leave/i }).click();
  await page.getByRole('link', { name: 'Debrief', exact: true }).click();
  await page.locator('.debrief[data-replayed="yes"]').waitFor({ timeout: 120_000 });
  const uses = await page.getByRole('button', { name: 'Use it' }).count();
  await page.locator('summary', { hasText: 'Close the job' }).click();
  await page.getByLabel(/Account sent/).check();
  await page.getByLabel(/Paid/).check();
  await page.getByLabel(/Paid 20/).waitFor();
  const across = (await page.locator('.paper-across').textContent()) ?? '';
  const after = await settingsOf(page, kept);
  return [
    atMost('kept values that the rehearsal changed', after === before ? 0 : 1, 0, '', 0),
    atMost('lessons a rehearsal offers to keep', uses, 0, '', 0),
    reported('across the rehearsal\u2019s report', across, 'REHEARSAL'),
  ];
}

const lines = (bytes: Buffer): string[] => bytes.toString('utf8').split('\n').slice(1);
const digest = (bytes: Buffer): string => createHash('sha256').update(lines(bytes).join('\n')).digest('hex').slice(0, 16);

async function makeBackup(page: Page): Promise<{ readonly path: string; readonly bytes: Buffer; readonly seconds: number; readonly peakBytes: number }> {
  const peak = watchMemory(page);
  const download = page.waitForEvent('download');
  const started = performance.now();
  await page.getByRole('button', { name: 'Make a backup' }).click();
  const file = await download;
  await page.locator('[data-backup="made"]').waitFor({ timeout: 60_000 });
  const seconds = (performance.now() - started) / 1000;
  const path = await file.path();
  return { path, bytes: readFileSync(path), seconds, peakBytes: await peak() };
}

/** The page's heap at its largest, looked at ten times a second. */
function watchMemory(page: Page): () => Promise<number> {
  let most = 0;
  let running = true;
  const done = (async () => {
    const session = await page.context().newCDPSession(page);
    while (running) {
      const { usedSize } = (await session.send('Runtime.getHeapUsage')) as { readonly usedSize: number };
      most = Math.max(most, usedSize);
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
    await session.detach();
  })();
  return async () => {
    running = false;
    await done;
    return most;
  };
}

async function backupFigures(browser: Browser, address: string): Promise<{ readonly bytes: Buffer; readonly found: readonly Figure[] }> {
  const full = await (await browser.newContext({ baseURL: address })).newPage();
  // What is run in the page was compiled with its functions' names kept, by a helper that no page has.
  await full.addInitScript({ content: 'globalThis.__name = (named) => named;' });
  await openJobs(full);
  await full.getByRole('button', { name: 'Delete' }).click();
  await full.getByText('No jobs are stored on this device.').waitFor();
  await putSeason(full);
  await full.reload();
  const made = await makeBackup(full);
  const { path } = made;
  const empty = await (await browser.newContext({ baseURL: address })).newPage();
  await openJobs(empty);
  // The demo of the first start is not part of it.
  await empty.getByRole('button', { name: 'Delete' }).click();
  await empty.getByText('No jobs are stored on this device.').waitFor();
  const peak = watchMemory(empty);
  const started = performance.now();
  // From the disk, as a person chooses it: given by the test itself it would pass through the page's memory.
  await empty.getByLabel('Backup to restore').setInputFiles(path);
  await empty.locator('[data-backup="restored"]').waitFor({ timeout: 120_000 });
  const seconds = (performance.now() - started) / 1000;
  const peakBytes = await peak();
  const again = await makeBackup(empty);
  const found = [
    reported('season', `${SEASON.rows} rows, ${SEASON.jobs} jobs, ${SEASON.overlays} overlays of 5 MB, ${SEASON.pictures} pictures`),
    reported('its backup', `${(made.bytes.length / 1e6).toFixed(1)} MB`),
    atMost('backup made', made.seconds, 10, 's', 1),
    atMost('backup restored', seconds, 10, 's', 1),
    atMost('heap at most while it is made', made.peakBytes / 1e6, 200, 'MB', 0),
    atMost('heap at most while it is restored', peakBytes / 1e6, 200, 'MB', 0),
    { name: 'digest of the restored season', value: digest(again.bytes), limit: digest(made.bytes), ok: digest(again.bytes) === digest(made.bytes) },
  ];
  await full.context().close();
  await empty.context().close();
  return { bytes: made.bytes, found };
}

const NOTHING: StoredParts = { jobs: 0, brokenJobs: 0, flights: 0, brokenFlights: 0, overlays: 0, pictures: 0 };

async function killFigures(address: string, bytes: Buffer): Promise<Figure[]> {
  const folder = mkdtempSync(join(tmpdir(), 'quillwind-day-'));
  let profile = join(folder, 'profile-0');
  const file = join(folder, 'season.quillwind');
  writeFileSync(file, bytes);
  const uniform = uniformFrom(77);
  let before = NOTHING;
  let [broken, less, kills] = [0, 0, 0];
  try {
    for (; kills < KILLS; kills += 1) {
      const context = await chromium.launchPersistentContext(profile, { ...LAUNCH, baseURL: address });
      const page = await context.newPage();
      await page.goto(address);
      await page.getByRole('heading', { name: 'Jobs', exact: true }).waitFor();
      await page.getByRole('button', { name: 'Make a backup' }).waitFor();
      await page.getByLabel('Backup to restore').setInputFiles(file);
      await new Promise((resolve) => setTimeout(resolve, 50 + uniform() * 2500));
      await killBrowserOf(profile);
      void context.close().catch(() => {});
      const reopened = await chromium.launchPersistentContext(profile, { ...LAUNCH, baseURL: address });
      const looking = await reopened.newPage();
      await looking.goto(address);
      await looking.getByRole('heading', { name: 'Jobs', exact: true }).waitFor();
      const now = await countStored(looking);
      if (now.brokenJobs > 0 || now.brokenFlights > 0) broken += 1;
      const lost = now.jobs < before.jobs || now.flights < before.flights || now.overlays < before.overlays || now.pictures < before.pictures;
      if (lost) {
        less += 1;
        process.stdout.write(`      LESS after kill ${kills + 1}: ${JSON.stringify(before)}, then ${JSON.stringify(now)}\n`);
      }
      before = now;
      if (now.jobs >= SEASON.jobs && now.flights === SEASON.flights && kills < KILLS - 1) {
        // All is there: the next kills fall into a restoring that begins anew.
        await reopened.close();
        profile = join(folder, `profile-${kills + 1}`);
        before = NOTHING;
        continue;
      }
      await reopened.close();
    }
    const context = await chromium.launchPersistentContext(profile, { ...LAUNCH, baseURL: address });
    const page = await context.newPage();
    await page.goto(address);
    await page.getByRole('button', { name: 'Make a backup' }).waitFor();
    await page.getByLabel('Backup to restore').setInputFiles(file);
    await page.locator('[data-backup="restored"]').waitFor({ timeout: 120_000 });
    const last = await countStored(page);
    await context.close();
    return [
      atLeast('kills in the middle of restoring', kills, 20, '', 0),
      atMost('after which a part was neither whole nor missing', broken, 0, '', 0),
      atMost('after which there was less than before', less, 0, '', 0),
      atLeast('jobs after the last restoring', last.jobs, SEASON.jobs, '', 0),
      atLeast('flights with every row', last.flights - last.brokenFlights, SEASON.flights, '', 0),
    ];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
