import { expect, type Page, test } from '@playwright/test';
import { openJobs } from '../stored-jobs.ts';

/** On Write a way on is there within this, whatever the storage does. */
const LIMIT_MILLISECONDS = 5000;

/** What is put into the page before its own code: how the database is opened. */
const FAULTS: readonly { readonly name: string; readonly heals: boolean; readonly inject: (page: Page) => Promise<unknown> }[] = [
  { name: 'hangs for 12 s', heals: true, inject: (page) => page.addInitScript(hang, 12_000) },
  { name: 'hangs for ever', heals: false, inject: (page) => page.addInitScript(hang, 1e9) },
  { name: 'is of a newer version', heals: false, inject: (page) => page.addInitScript(refuse, 'VersionError') },
  { name: 'is damaged', heals: false, inject: (page) => page.addInitScript(refuse, 'UnknownError') },
];

/** Answers nothing for a while: requests made meanwhile are never heard of again. */
function hang(milliseconds: number): void {
  const open = IDBFactory.prototype.open;
  const until = performance.now() + milliseconds;
  IDBFactory.prototype.open = function (this: IDBFactory, ...asked: Parameters<typeof open>): IDBOpenDBRequest {
    if (performance.now() > until) return open.apply(this, asked);
    // A true request, which nobody hears.
    const request = open.call(this, 'quillwind-unheard');
    request.addEventListener = () => {};
    return request;
  };
}

/** Every opening fails as the browser says it. */
function refuse(name: string): void {
  const open = IDBFactory.prototype.open;
  IDBFactory.prototype.open = function (this: IDBFactory): IDBOpenDBRequest {
    const request = open.call(this, 'quillwind-unheard');
    Object.defineProperty(request, 'error', { value: new DOMException('', name) });
    request.addEventListener = (type: string, listener: EventListenerOrEventListenerObject) => {
      if (type === 'error' && typeof listener === 'function') setTimeout(() => listener.call(request, new Event('error')));
    };
    return request;
  };
}

for (const { name, heals, inject } of FAULTS) {
  test(`on Write, a database that ${name} leaves a way on within 5 s`, async ({ page, context }) => {
    await openJobs(page);
    await page.goto('./#/write/lake-ondine');
    await page
      .getByRole('button', { name: /^Start/ })
      .first()
      .waitFor();
    // Another page, as after a kill; only now the storage is ill.
    await page.close();
    const next = await context.newPage();
    await inject(next);
    const startedAt = performance.now();
    await next.goto('./#/write/lake-ondine');
    const way = next.getByRole('button', { name: 'Start without a log', exact: true });
    await expect(way).toBeVisible({ timeout: 20_000 });
    const seconds = (performance.now() - startedAt) / 1000;
    test.info().annotations.push({ type: 'way on', description: `${name}: ${seconds.toFixed(1)} s` });
    process.stdout.write(`      ${name}: a way on after ${seconds.toFixed(1)} s\n`);
    expect(seconds * 1000).toBeLessThan(LIMIT_MILLISECONDS);
    await expect(next.locator('[data-without-store]')).toContainText('Looking for a flight to go on with');
    if (heals) {
      // What was asked again is answered by itself.
      await expect(next.locator('[data-without-store]')).toHaveCount(0, { timeout: 40_000 });
      return;
    }
    await way.click();
    await expect(next.locator('[data-without-store]')).toHaveCount(0);
    await next
      .getByRole('button', { name: /^Start/ })
      .first()
      .click({ timeout: 60_000 });
    await expect(next.locator('[data-cue="phase"]')).toHaveAttribute('data-value', /run-in|stroke|reposition|go-around|no-cue|standby/, { timeout: 30_000 });
    await expect(next.getByText('LOG NOT SAVING').first()).toBeVisible({ timeout: 20_000 });
  });
}

test('what a newer version stored is exported whole, and left as it is', async ({ page }) => {
  await openJobs(page);
  // A page of the same origin without the app, which would hold the database open.
  await page.goto('./icons/quillwind.svg');
  await page.evaluate(
    () =>
      new Promise<void>((resolve, reject) => {
        const open = indexedDB.open('quillwind', 99);
        open.onerror = () => reject(open.error);
        open.onsuccess = () => {
          open.result.close();
          resolve();
        };
      }),
  );
  await page.goto('./');
  await expect(page.getByRole('alert')).toContainText('written by a newer version of Quillwind');
  const handed = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Export everything' }).click();
  const stream = await (await handed).createReadStream();
  const chunks: Buffer[] = [];
  for await (const chunk of stream) chunks.push(chunk as Buffer);
  expect(Buffer.concat(chunks).toString('utf8')).toContain('lake-ondine');
  const found = await page.evaluate(async () => (await indexedDB.databases()).find(({ name }) => name === 'quillwind')?.version);
  expect(found).toBe(99);
});
