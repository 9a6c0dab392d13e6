import { readFileSync } from 'node:fs';
import { expect, test } from '@playwright/test';
import { LAUNCH_PICTURES } from '../.ci/launch-pictures.ts';
import { openJobs } from './stored-jobs.ts';

interface Manifest {
  readonly screenshots: readonly { readonly src: string; readonly sizes: string }[];
  readonly shortcuts: readonly { readonly url: string }[];
  readonly share_target: { readonly action: string };
}

test('titles name screen, job and sheet, and the focus goes along', async ({ page }) => {
  await openJobs(page);
  await expect(page).toHaveTitle('Jobs \u2013 Quillwind');
  await page.getByRole('link', { name: 'Draw', exact: true }).first().click();
  await expect(page).toHaveTitle('Draw: Lake Ondine Regatta (demo) \u2013 Quillwind');
  expect(await page.evaluate(() => document.activeElement?.tagName)).toBe('MAIN');
  await page.getByRole('link', { name: 'Brief', exact: true }).click();
  await expect(page).toHaveTitle('Lake Ondine Regatta (demo) \u2013 Kneeboard card');
  await page.getByRole('button', { name: 'Controller' }).click();
  await expect(page).toHaveTitle('Lake Ondine Regatta (demo) \u2013 Notice for the controller');
});

test('shortcuts lead to the next job and to a new one', async ({ page, baseURL }) => {
  await openJobs(page);
  await page.goto(`${baseURL ?? ''}#/next/write`);
  await page.reload();
  await expect(page).toHaveURL(/#\/write\/lake-ondine$/);
  await page.goto(`${baseURL ?? ''}#/new`);
  await page.reload();
  await expect(page).toHaveURL(/#\/draw\//);
});

test('a file shared with the app is taken by the Jobs screen, through the service worker alone', async ({ page }) => {
  await openJobs(page);
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  const job = JSON.stringify({ ...(JSON.parse(readFileSync('tests/reference/shared-job.json', 'utf8')) as object) });
  // The share sheet posts a form as a navigation; the page's own policy lets no form out, so it is posted by fetch.
  await page.evaluate(async (text) => {
    const form = new FormData();
    form.append('files', new File([text], 'given.json', { type: 'application/json' }));
    await fetch('/share', { method: 'POST', body: form, redirect: 'manual' });
  }, job);
  await page.reload();
  await expect(page.getByRole('status').filter({ hasText: 'Imported: Given by another app.' })).toBeVisible();
  await expect(page.locator('.job-card')).toHaveCount(2);
});

test('the manifest\u2019s pictures are there in the sizes it says', async ({ request }) => {
  const manifest = (await (await request.get('./manifest.webmanifest')).json()) as Manifest;
  expect(manifest.share_target.action).toBe('/share');
  expect(manifest.shortcuts).toHaveLength(2);
  expect(manifest.screenshots).toHaveLength(2);
  for (const { src, sizes } of manifest.screenshots) {
    const bytes = await (await request.get(`.${src}`)).body();
    // PNG, IHDR: width and height are the four-byte numbers at 16 and 20 (RFC 2083, 4.1.1).
    expect(`${bytes.readUInt32BE(16)}x${bytes.readUInt32BE(20)}`).toBe(sizes);
  }
});

test('every screen that iOS starts the app on has a picture of its size, which the app does not store itself', async ({ page, request }) => {
  await page.goto('./');
  const links = page.locator('link[rel="apple-touch-startup-image"]');
  const named = await links.evaluateAll((all) => all.map((link) => [link.getAttribute('media'), link.getAttribute('href')]));
  expect(named).toHaveLength(LAUNCH_PICTURES.length);
  const worker = await (await request.get('./service-worker.js')).text();
  for (const [media, href] of named) {
    const [, width, height, scale, orientation] = /width: (\d+)px\) and \(device-height: (\d+)px\).*ratio: (\d)\).*: (\w+)\)$/.exec(media ?? '') ?? [];
    const [across, down] = (orientation === 'portrait' ? [width, height] : [height, width]).map((points) => Number(points) * Number(scale));
    const bytes = await (await request.get(`.${href ?? ''}`)).body();
    expect(`${bytes.readUInt32BE(16)}x${bytes.readUInt32BE(20)}`).toBe(`${across}x${down}`);
    expect(worker).not.toContain(href?.slice(1));
  }
});
