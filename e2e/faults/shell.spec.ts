import { expect, type Page, test } from '@playwright/test';
import { serveCopy } from '../dist-copy.ts';
import { beginRehearsal, openStartPanel } from '../write-flight.ts';
import { acknowledged } from '../write-log.ts';
import { openJobs } from '../stored-jobs.ts';

const CUED = /run-in|stroke|reposition|go-around/;

/** Changes stored files behind the app's back: `null` takes one away, a text takes its content's place. */
function tamper(page: Page, changes: readonly (readonly [ending: string, content: string | null])[]): Promise<number> {
  return page.evaluate(async (wanted) => {
    let changed = 0;
    for (const name of await caches.keys()) {
      const cache = await caches.open(name);
      for (const request of await cache.keys()) {
        const change = wanted.find(([ending]) => new URL(request.url).pathname.includes(ending));
        if (change === undefined) continue;
        const [, content] = change;
        const stored = await cache.match(request);
        await cache.delete(request);
        if (content !== null) await cache.put(request, new Response(content, { headers: stored?.headers ?? {} }));
        changed += 1;
      }
    }
    return changed;
  }, changes);
}

test('a newer version arrives during a flight: nothing is offered, reloaded or taken over, and the flight goes on', async ({ page }) => {
  const copy = await serveCopy();
  await openJobs(page, copy.address);
  await page.goto(`${copy.address}#/write/lake-ondine`);
  await page.getByLabel(/^Pace/).fill('2');
  await page.getByRole('button', { name: 'Start rehearsal' }).click();
  await expect(page.locator('[data-cue="phase"]')).toHaveAttribute('data-value', CUED, { timeout: 20_000 });
  const { flightId, sequence } = await acknowledged(page);
  copy.publishNext();
  await page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.update());
  await page.waitForFunction(async () => (await navigator.serviceWorker.getRegistration())?.waiting != null);
  await expect.poll(async () => (await acknowledged(page)).sequence).toBeGreaterThan(sequence + 40);
  expect(await page.locator('[data-update-offer], dialog[open], [role="dialog"]').count()).toBe(0);
  await expect(page).toHaveTitle(/Quillwind$/);
  // A kill in the middle of it resumes with the code that the flight began with.
  await page.reload();
  await expect(page.locator('[data-cue="phase"]')).toHaveAttribute('data-value', CUED, { timeout: 20_000 });
  expect((await acknowledged(page)).flightId).toBe(flightId);
  await expect(page).toHaveTitle(/Quillwind$/);
  await copy.stop();
});

test('a stored file is missing, another altered: said before the flight when it cannot be repaired, mended when it can', async ({ page, context }) => {
  await openJobs(page);
  expect(
    await tamper(page, [
      ['DrawScreen', null],
      ['BriefScreen', 'export const BriefScreen = () => "something else";'],
    ]),
  ).toBeGreaterThanOrEqual(2);
  await context.setOffline(true);
  await openStartPanel(page);
  const check = page.locator('[data-check="Offline"]');
  await expect(check).toHaveAttribute('data-state', 'bad', { timeout: 10_000 });
  await expect(check).toContainText('missing or altered');
  await expect(page.locator('.write-start-hint')).toContainText('offline');
  // A screen whose code is gone says so, and everything else works.
  await page.goto('./#/draw/lake-ondine');
  await expect(page.getByRole('alert')).toContainText('could not be loaded');
  await beginRehearsal(page, 2);
  await expect(page.locator('[data-cue="phase"]')).toHaveAttribute('data-value', CUED, { timeout: 20_000 });
  await page.getByRole('button', { name: /^KNOCK/ }).focus();
  await page.keyboard.down('Enter');
  await expect(page.locator('[data-cue="phase"]')).toHaveAttribute('data-value', 'finished');
  await page.keyboard.up('Enter');
  await page.getByRole('button', { name: /^LEAVE/ }).click();

  await context.setOffline(false);
  await openStartPanel(page);
  await expect(check).toHaveAttribute('data-state', 'good', { timeout: 10_000 });
  await expect(check).toContainText('fetched again');
  await context.setOffline(true);
  await page.goto('./#/draw/lake-ondine');
  await page.reload();
  await expect(page.getByRole('alert').filter({ hasText: 'could not be loaded' })).toHaveCount(0);
  await expect(page.locator('.screen-draw input').first()).toBeVisible();
});

test('every stored file is held against a digest of the build, and none is left out', async ({ page }) => {
  await openJobs(page);
  const { report, stored } = await page.evaluate(async () => {
    const { active } = await navigator.serviceWorker.ready;
    const channel = new MessageChannel();
    const answered = new Promise((resolve) => (channel.port1.onmessage = ({ data }) => resolve(data)));
    active!.postMessage({ type: 'IS_SHELL_WHOLE' }, [channel.port2]);
    let count = 0;
    for (const name of await caches.keys()) count += (await (await caches.open(name)).keys()).length;
    return { report: (await answered) as { whole: number; repaired: number; broken: string[] }, stored: count };
  });
  expect(report).toEqual({ whole: stored, repaired: 0, broken: [] });
});

test('an install that is broken off says why and how far it is, and heals by itself', async ({ page }) => {
  const copy = await serveCopy();
  copy.breakOff('licences.md');
  await page.goto(copy.address);
  const shell = page.locator('[data-shell]');
  await expect(shell).toContainText('was broken off: /licences.md', { timeout: 30_000 });
  expect(await page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.active ?? null)).toBeNull();
  copy.breakOff(null);
  await expect(shell).toHaveAttribute('data-shell', 'complete', { timeout: 60_000 });
  await copy.stop();
});

test('over a slow network several files are on their way at once, and all are stored', async ({ page }) => {
  const copy = await serveCopy();
  await page.goto(copy.address);
  await page.getByRole('heading', { name: 'Jobs', exact: true }).waitFor();
  copy.delay(100);
  const startedAt = performance.now();
  await expect(page.locator('[data-shell]')).toHaveAttribute('data-shell', 'complete', { timeout: 120_000 });
  console.log(
    `with 100 ms more for each answer, stored ${((performance.now() - startedAt) / 1000).toFixed(1)} s after the first screen, ${copy.mostAtOnce()} at once`,
  );
  expect(copy.mostAtOnce()).toBeGreaterThanOrEqual(2);
  await copy.stop();
});

test('a newer version that another tab took is loaded by the press that is offered here', async ({ page, context }) => {
  const copy = await serveCopy();
  await openJobs(page, copy.address);
  const second = await context.newPage();
  await openJobs(second, copy.address);
  copy.publishNext();
  await page.evaluate(async () => void (await (await navigator.serviceWorker.getRegistration())?.update()));
  await expect(page.locator('[data-update-offer]')).toBeVisible({ timeout: 30_000 });
  await expect(second.locator('[data-update-offer]')).toBeVisible({ timeout: 30_000 });
  await page.getByRole('button', { name: 'Use it now' }).click();
  await expect(page).toHaveTitle(/Quillwind, next/);
  await expect(second).toHaveTitle(/Quillwind$/);
  await second.getByRole('button', { name: 'Use it now' }).click();
  await expect(second).toHaveTitle(/Quillwind, next/);
  await copy.stop();
});
