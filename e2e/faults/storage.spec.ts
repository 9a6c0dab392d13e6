import { expect, type Page, test } from '@playwright/test';
import { beginRehearsal, flyUntil, shownCues } from '../write-flight.ts';
import { acknowledged, storedRows } from '../write-log.ts';
import { openJobs } from '../stored-jobs.ts';

const caution = (page: Page, words: string) => page.locator('.write-caution', { hasText: words });

async function fly(page: Page): Promise<void> {
  await openJobs(page);
  await beginRehearsal(page, 2);
  await expect.poll(async () => (await acknowledged(page)).sequence).toBeGreaterThan(20);
}

/** Fixes keep being taken and shown: the guidance waits for no storage. */
async function expectCuesGoOn(page: Page): Promise<void> {
  const ages = new Set<string | undefined>();
  await expect.poll(async () => ages.add((await shownCues(page))['fix-age']).size, { intervals: [130] }).toBeGreaterThan(3);
}

async function expectWholeLog(page: Page, flightId: string, least: number): Promise<void> {
  await expect.poll(async () => (await acknowledged(page)).sequence).toBeGreaterThan(least);
  const rows = await storedRows(page, flightId);
  expect(rows.map(({ sequence }) => sequence)).toEqual(rows.map((_, index) => index));
}

/** Fills whatever room the page has with random bytes, which no disk packs smaller, until the browser refuses. */
function fillTheRoom(page: Page): Promise<string> {
  return page.evaluate(async () => {
    const database = await new Promise<IDBDatabase>((resolve, reject) => {
      const open = indexedDB.open('filler', 1);
      open.onupgradeneeded = () => open.result.createObjectStore('bytes', { autoIncrement: true });
      open.onsuccess = () => resolve(open.result);
      open.onerror = () => reject(open.error);
    });
    let bytes = 1 << 20;
    for (;;) {
      const refused = await new Promise<string | null>((resolve) => {
        const noise = new Uint8Array(bytes);
        for (let from = 0; from < bytes; from += 65_536) crypto.getRandomValues(noise.subarray(from, from + 65_536));
        const transaction = database.transaction('bytes', 'readwrite', { durability: 'strict' });
        transaction.objectStore('bytes').add(noise);
        transaction.oncomplete = () => resolve(null);
        transaction.onabort = () => resolve(transaction.error?.name ?? 'aborted');
      });
      if (refused !== null && bytes <= 1024) {
        database.close();
        return refused;
      }
      if (refused !== null) bytes >>= 2;
    }
  });
}

test('no room left, filled with random bytes: LOG NOT SAVING, cues on, and everything is written once there is room', async ({ page, context, baseURL }) => {
  await fly(page);
  const session = await context.newCDPSession(page);
  await session.send('Storage.overrideQuotaForOrigin', { origin: new URL(baseURL!).origin, quotaSize: 12_000_000 });
  expect(await fillTheRoom(page)).toBe('QuotaExceededError');
  await expect(caution(page, 'LOG NOT SAVING')).toBeVisible({ timeout: 15_000 });
  const stuck = await acknowledged(page);
  await expectCuesGoOn(page);
  // Not the reason why nothing is read: what is there stays readable.
  expect((await storedRows(page, stuck.flightId)).length).toBeGreaterThan(stuck.sequence);
  await page.evaluate(() => new Promise((resolve) => (indexedDB.deleteDatabase('filler').onsuccess = resolve)));
  await session.send('Storage.overrideQuotaForOrigin', { origin: new URL(baseURL!).origin });
  await expect(caution(page, 'LOG NOT SAVING')).toHaveCount(0, { timeout: 60_000 });
  await expectWholeLog(page, stuck.flightId, stuck.sequence + 40);
});

test('another page wants the data in a newer form during a flight: it waits, and the flight is logged on', async ({ page, context }) => {
  await fly(page);
  const newer = await context.newPage();
  await newer.goto('./licences.md');
  await newer.evaluate(() => {
    const open = indexedDB.open('quillwind', 99);
    const told = window as unknown as { blocked: boolean; upgraded: boolean };
    told.blocked = false;
    told.upgraded = false;
    open.onblocked = () => (told.blocked = true);
    open.onupgradeneeded = () => (told.upgraded = true);
  });
  await expect.poll(() => newer.evaluate(() => (window as unknown as { blocked: boolean }).blocked)).toBe(true);
  const { sequence } = await acknowledged(page);
  await expect.poll(async () => (await acknowledged(page)).sequence).toBeGreaterThan(sequence + 60);
  await expect(caution(page, 'LOG NOT SAVING')).toHaveCount(0);
  expect(await newer.evaluate(() => (window as unknown as { upgraded: boolean }).upgraded)).toBe(false);
});

test('data of a newer version is said to be that, and left alone', async ({ page }) => {
  await page.goto('./licences.md');
  await page.evaluate(
    () =>
      new Promise<void>((resolve) => {
        const open = indexedDB.open('quillwind', 99);
        open.onupgradeneeded = () => open.result.createObjectStore('tomorrow');
        open.onsuccess = () => {
          open.result.close();
          resolve();
        };
      }),
  );
  await page.goto('./');
  await expect(page.getByRole('alert')).toContainText('written by a newer version of Quillwind');
  await expect(page.getByText('No jobs are stored')).toHaveCount(0);
  const found = await page.evaluate(async () => (await indexedDB.databases()).find(({ name }) => name === 'quillwind')?.version);
  expect(found).toBe(99);
});

test('site data cleared under a flight: cues and log go on, the gap shows, and a kill later the flight is found again', async ({ page, context, baseURL }) => {
  await page.clock.install();
  await openJobs(page);
  await beginRehearsal(page, 1);
  await flyUntil(page, ({ phase }) => phase === 'reposition', 20);
  const before = await acknowledged(page);
  const session = await context.newCDPSession(page);
  await session.send('Storage.clearDataForOrigin', { origin: new URL(baseURL!).origin, storageTypes: 'indexeddb' });
  for (let second = 0; second < 25; second += 1) {
    await page.clock.runFor(1000);
    expect((await shownCues(page))['phase']).toMatch(/run-in|stroke|reposition|go-around/);
  }
  await expect.poll(async () => (await acknowledged(page)).sequence).toBeGreaterThan(before.sequence + 200);
  // What is written now keeps its numbers, so that what is gone shows as a gap and never as a whole log.
  const rows = await storedRows(page, before.flightId);
  const first = rows[0]!.sequence;
  expect(first).toBeGreaterThan(before.sequence);
  expect(rows.map(({ sequence }) => sequence)).toEqual(rows.map((_, index) => first + index));
  await page.reload();
  // The rehearsal's parts are fetched by the room's clock; its fixes come by the page's.
  await expect(page.getByLabel('Pace')).toBeVisible();
  await page.clock.runFor(3000);
  await expect(page.locator('[data-cue="phase"]')).toHaveAttribute('data-value', /run-in|stroke|reposition|go-around/);
  expect((await acknowledged(page)).flightId).toBe(before.flightId);
});

test('jobs that the browser has cleared are named, and are no list that looks normal', async ({ page, context, baseURL }) => {
  await openJobs(page);
  await page.getByRole('button', { name: 'Duplicate' }).click();
  await expect(page.getByRole('article')).toHaveCount(2);
  const session = await context.newCDPSession(page);
  await session.send('Storage.clearDataForOrigin', { origin: new URL(baseURL!).origin, storageTypes: 'indexeddb' });
  for (let visit = 0; visit < 2; visit += 1) {
    await page.reload();
    const alert = page.getByRole('alert');
    await expect(alert).toContainText('no longer on this device');
    await expect(alert).toContainText('Lake Ondine Regatta (demo) (copy)');
  }
  await page.getByRole('button', { name: 'I have read this' }).click();
  await page.reload();
  await expect(page.getByRole('article')).toHaveCount(1);
  await expect(page.getByRole('alert')).toHaveCount(0);
  // What a person deletes is not missed.
  await page.getByRole('button', { name: 'Delete' }).click();
  await expect(page.getByRole('article')).toHaveCount(0);
  await page.reload();
  await expect(page.getByText('No jobs are stored on this device.')).toBeVisible();
  await expect(page.getByRole('alert')).toHaveCount(0);
});
