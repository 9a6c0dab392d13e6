import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { expect, test } from '@playwright/test';
import { builtFiles, serveCopy } from './dist-copy.ts';
import { distDirectory } from './serve-dist.ts';
import { openJobs, putRaw } from './stored-jobs.ts';

const CONTENT_TYPES: Readonly<Record<string, RegExp>> = {
  html: /^text\/html/,
  js: /^text\/javascript/,
  css: /^text\/css/,
  json: /^application\/json/,
  webmanifest: /^application\/manifest\+json/,
  svg: /^image\/svg\+xml/,
  png: /^image\/png/,
  md: /^text\/markdown/,
  wav: /^audio\/(x-)?wav/,
  mp3: /^audio\/mpeg/,
  webm: /^audio\/webm|^video\/webm/,
  wasm: /^application\/wasm/,
  txt: /^text\/plain/,
  csv: /^text\/csv/,
  gpx: /gpx|xml/,
};

const extensionOf = (path: string): string => path.slice(path.lastIndexOf('.') + 1);

test.describe('the shell', () => {
  test('stores every built file, each with its own content type', async ({ page }) => {
    await openJobs(page);
    const stored = await page.evaluate(async () => {
      const found: { path: string; type: string; status: number; bytes: number }[] = [];
      for (const name of await caches.keys()) {
        const cache = await caches.open(name);
        for (const request of await cache.keys()) {
          const response = await cache.match(request);
          if (response === undefined) continue;
          found.push({
            path: new URL(request.url).pathname,
            type: response.headers.get('content-type') ?? '',
            status: response.status,
            bytes: (await response.arrayBuffer()).byteLength,
          });
        }
      }
      return found;
    });
    const expected = builtFiles().filter((path) => path !== '/service-worker.js' && !path.startsWith('/launch/'));
    expect(expected.length).toBeGreaterThan(12);
    expect(stored.map(({ path }) => path).sort()).toEqual(expected);
    for (const { path, type, status, bytes } of stored) {
      expect(CONTENT_TYPES[extensionOf(path)], `no content type is named for ${path}`).toBeDefined();
      expect(type, path).toMatch(CONTENT_TYPES[extensionOf(path)]!);
      expect(status, path).toBe(200);
      expect(bytes, path).toBe(readFileSync(join(distDirectory(), path)).byteLength);
    }
  });

  test('is answered 404 in plain text where there is nothing', async ({ request, baseURL }) => {
    for (const path of ['assets/missing.js', 'nothing', 'jobs/lake-ondine', '..%2f..%2fpackage.json', 'service-worker.js.map']) {
      const response = await request.get(`${baseURL}${path}`);
      expect(response.status(), path).toBe(404);
      expect(response.headers()['content-type'], path).toMatch(/^text\/plain/);
    }
  });

  test('has a first script for the flight path under 60 kB gzip', () => {
    const html = readFileSync(join(distDirectory(), 'index.html'), 'utf8');
    const scripts = [...html.matchAll(/(?:src|href)="(\/assets\/[^"]+\.js)"/g)].map(([, path]) => path!);
    expect(scripts.length).toBeGreaterThan(0);
    const bytes = scripts.reduce((sum, path) => sum + gzipSync(readFileSync(join(distDirectory(), path)), { level: 9 }).byteLength, 0);
    expect(bytes / 1000).toBeLessThan(60);
  });

  test('runs no inline script and breaks none of its own policy on any screen', async ({ page }) => {
    const complaints: string[] = [];
    page.on('console', (message) => {
      if (message.type() === 'error') complaints.push(message.text());
    });
    page.on('pageerror', (error) => complaints.push(error.message));
    await openJobs(page);
    for (const screen of ['draw', 'brief', 'write', 'ground', 'debrief', 'jobs']) {
      await page.goto(`./#/${screen}/lake-ondine`);
      await expect(page.getByRole('main')).not.toBeEmpty();
      await page.waitForTimeout(300);
    }
    expect(complaints).toEqual([]);
    await page.evaluate(() => {
      const script = document.createElement('script');
      try {
        script.textContent = 'window.inlineRan = true';
      } catch {
        // Trusted types already keep the text out; a text node is how it would get in all the same.
        script.append('window.inlineRan = true');
      }
      document.head.append(script);
    });
    expect(await page.evaluate(() => 'inlineRan' in window)).toBe(false);
  });
});

test.describe('offline', () => {
  test('starts cold in under 5 s from a closed browser, with the server gone, on any screen', async ({ playwright, launchOptions }, info) => {
    test.setTimeout(180_000);
    const copy = await serveCopy();
    const profile = info.outputPath('profile');
    const first = await playwright.chromium.launchPersistentContext(profile, launchOptions);
    await openJobs(await first.newPage(), copy.address);
    await first.close();
    await copy.stop();

    for (const [hash, heading] of [
      ['', /Lake Ondine Regatta/],
      ['#/write/lake-ondine', null],
      ['#/draw/lake-ondine', null],
      ['?source=home#/write/lake-ondine', null],
    ] as const) {
      // The best of three: a machine that is busy with something else is not what is measured.
      let seconds = Number.POSITIVE_INFINITY;
      for (let attempt = 0; attempt < 3 && seconds >= 5; attempt += 1) {
        const context = await playwright.chromium.launchPersistentContext(profile, launchOptions);
        const page = await context.newPage();
        const startedAt = performance.now();
        await page.goto(`${copy.address}${hash}`);
        if (heading === null) await expect(page.getByRole('main')).not.toBeEmpty();
        else await page.getByRole('heading', { name: heading }).waitFor();
        seconds = Math.min(seconds, (performance.now() - startedAt) / 1000);
        await context.close();
      }
      info.annotations.push({ type: 'cold start', description: `${hash || 'jobs'} ${seconds.toFixed(2)} s` });
      expect(seconds).toBeLessThan(5);
    }
  });

  test('does not wait for a server that hangs', async ({ page }) => {
    const copy = await serveCopy();
    await openJobs(page, copy.address);
    copy.hang();
    const startedAt = performance.now();
    await page.reload();
    await page.getByRole('heading', { name: /Lake Ondine Regatta/ }).waitFor();
    expect((performance.now() - startedAt) / 1000).toBeLessThan(5);
    await copy.stop();
  });

  test('opens every screen after the very first visit, without having been loaded twice', async ({ page }) => {
    const copy = await serveCopy();
    await openJobs(page, copy.address);
    await expect.poll(() => page.evaluate(() => navigator.serviceWorker.controller !== null)).toBe(true);
    await copy.stop();
    for (const screen of ['draw', 'brief', 'ground', 'debrief', 'write']) {
      await page.evaluate((name) => (location.hash = `#/${name}/lake-ondine`), screen);
      await expect(page.getByRole('main')).not.toBeEmpty();
      await expect(page.getByText(/^Opening/)).toHaveCount(0);
      await expect(page.getByText('could not be loaded')).toHaveCount(0);
    }
  });
});

test.describe('an update', () => {
  test('changes nothing until the user says yes', async ({ page }) => {
    const copy = await serveCopy();
    await openJobs(page, copy.address);
    copy.publishNext();
    const offer = page.locator('[data-update-offer]');
    await expect(offer).toHaveCount(0);
    await page.reload();
    await expect(offer).toBeVisible();
    await expect(page).toHaveTitle(/Quillwind$/);
    await offer.getByRole('button', { name: 'Later' }).click();
    await expect(offer).toHaveCount(0);
    await page.reload();
    await expect(offer).toBeVisible();
    await expect(page).toHaveTitle(/Quillwind$/);
    // In the page's first second, where a browser may forget that it was told.
    await offer.getByRole('button', { name: 'Use it now' }).click();
    await expect(offer).toHaveText('The newer version is being opened.');
    await expect(page).toHaveTitle(/Quillwind, next$/, { timeout: 15_000 });
    await expect(page.getByRole('heading', { name: /Lake Ondine Regatta/ })).toBeVisible();
    await expect(offer).toHaveCount(0);
    await copy.stop();
  });

  test('is not offered while a flight is in progress, nor taken over by another tab', async ({ page, context }) => {
    const copy = await serveCopy();
    await openJobs(page, copy.address);
    const flight = {
      id: 'flight-1',
      jobId: 'lake-ondine',
      name: 'A flight',
      kind: 'flight',
      startedAtMilliseconds: Date.now(),
      endedAtMilliseconds: null as number | null,
      jobFileText: '{}',
      setupText: '{}',
    };
    await putRaw(page, 'flights', flight);
    copy.publishNext();
    await page.reload();
    const waits = () => page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.waiting?.state ?? '');
    await expect.poll(waits, { timeout: 20_000 }).toBe('installed');
    await page.waitForTimeout(500);
    await expect(page.locator('[data-update-offer]')).toHaveCount(0);
    const other = await context.newPage();
    await other.goto(copy.address);
    await other.getByRole('heading', { name: /Lake Ondine Regatta/ }).waitFor();
    await other.waitForTimeout(500);
    await expect(other.locator('[data-update-offer]')).toHaveCount(0);
    expect(await page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.waiting?.state)).toBe('installed');
    await other.close();

    await putRaw(page, 'flights', { ...flight, endedAtMilliseconds: Date.now() });
    await page.reload();
    await expect(page.locator('[data-update-offer]')).toBeVisible();
    // A flight that began after the offer was shown still refuses the yes.
    await putRaw(page, 'flights', { ...flight, id: 'flight-2' });
    await page.getByRole('button', { name: 'Use it now' }).click();
    await expect(page.locator('[data-update-offer]')).toHaveCount(0);
    await page.waitForTimeout(1500);
    await expect(page).toHaveTitle(/Quillwind$/);
    await copy.stop();
  });
});

test('a second tab only reads, says so, and takes over when the first is closed', async ({ page, context }) => {
  await openJobs(page);
  const second = await context.newPage();
  await second.goto('./');
  await expect(second.locator('[data-reader]')).toBeVisible();
  await expect(second.getByRole('heading', { name: /Lake Ondine Regatta/ })).toBeVisible();
  await second.getByRole('button', { name: 'Duplicate' }).click();
  await expect(second.getByRole('alert')).toContainText('open in another tab');
  await expect(second.getByRole('article')).toHaveCount(1);
  await expect(page.locator('[data-reader]')).toHaveCount(0);
  await page.close();
  await expect(second.locator('[data-reader]')).toHaveCount(0);
  await second.getByRole('button', { name: 'Duplicate' }).click();
  await expect(second.getByRole('article')).toHaveCount(2);
});
