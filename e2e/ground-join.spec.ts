import type { AddressInfo } from 'node:net';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, expect, test } from '@playwright/test';
import { WebSocketServer } from 'ws';
import { findChromium } from '../.ci/chromium.mjs';
import { DEMO_JOB } from '../src/core/job/demo-job.ts';
import { framesFromText } from '../src/core/wire/link-frames.ts';
import { writeJob } from '../src/core/job/write-job.ts';
import { filmOfCodes } from './ground-camera.ts';
import { openJobs } from './stored-jobs.ts';

const baseAddress = (): { baseURL?: string } => (process.env['QUILLWIND_URL'] === undefined ? {} : { baseURL: process.env['QUILLWIND_URL'] });

test('a camera reads a whole job off another screen, from the Jobs screen, offline', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'quillwind-camera-'));
  const film = join(folder, 'codes.y4m');
  const frames = framesFromText(writeJob({ ...DEMO_JOB, id: 'from-afar', name: 'From afar', text: 'HI' }), 'camera01');
  expect(frames.length).toBeGreaterThan(2);
  // It comes in the middle of a round, and sees something else first.
  writeFileSync(film, filmOfCodes(['https://elsewhere.example/', ...frames.slice(2), ...frames.slice(0, 2)]));
  const browser = await chromium.launch({
    executablePath: findChromium() ?? 'chromium',
    args: [
      '--use-fake-ui-for-media-stream',
      '--use-fake-device-for-media-stream',
      `--use-file-for-fake-video-capture=${film}`,
      ...(process.getuid?.() === 0 ? ['--no-sandbox'] : []),
    ],
  });
  try {
    const context = await browser.newContext({ ...baseAddress(), permissions: ['camera'] });
    const page = await context.newPage();
    await openJobs(page);
    await page.getByRole('button', { name: 'From another device' }).click();
    await context.setOffline(true);
    await page.getByRole('button', { name: 'Read the codes' }).click();
    await expect(page.locator('.job-wanted-state')).toContainText(`of ${frames.length} codes read`, { timeout: 20_000 });
    await expect(page.locator('[data-figure="taken-job"]')).toHaveAttribute('data-value', 'from-afar', { timeout: 60_000 });
    // The camera is let go at once.
    await expect(page.locator('video')).toBeHidden();
    await page.getByRole('button', { name: 'Keep it on this device' }).click();
    await expect(page).toHaveURL(/#\/ground\/from-afar/);
    await page.locator('.ground-letter').first().waitFor({ timeout: 30_000 });
  } finally {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  }
});

test('a join code of another version says so, and taking that version keeps the one before', async ({ page }) => {
  await openJobs(page);
  const newer = { ...DEMO_JOB, text: 'ECHO' };
  await page.getByRole('button', { name: `To another device: ${DEMO_JOB.name}` }).click();
  await page.locator('[data-figure="job-digest"]').waitFor();
  const own = (await page.locator('[data-figure="job-digest"]').getAttribute('data-value')) ?? '';
  await page.goto(`./#/ground/${DEMO_JOB.id}/join?digest=${own}`);
  await page.locator('.ground-letter').first().waitFor({ timeout: 30_000 });
  await expect(page.locator('[data-figure="other-version"]')).toHaveCount(0);

  await page.goto('./#/jobs');
  await page.goto(`./#/ground/${DEMO_JOB.id}/join?digest=${'0123456789ab'.repeat(2)}`);
  await expect(page.locator('[data-figure="other-version"]')).toContainText('names version 0123 4567');
  await page.getByRole('button', { name: 'Take that version' }).click();
  await page.getByLabel('Job file to take').setInputFiles([{ name: 'job.json', mimeType: 'application/json', buffer: Buffer.from(writeJob(newer)) }]);
  await expect(page.locator('[data-figure="taken-job"]')).toContainText('It is NOT the version');
  await expect(page.locator('[data-figure="taken-job"]')).toContainText('the other stays as a copy');
  await page.getByRole('button', { name: 'Keep it on this device' }).click();
  await expect(page.getByRole('heading', { name: 'Ground: ECHO' })).toBeVisible();
  await page.goto('./#/jobs');
  await expect(page.getByRole('article')).toHaveCount(2);
});

test('a join code of another host empties name and password, shows both hosts, and sends nothing there unasked', async ({ page }) => {
  const asked: string[] = [];
  const sockets = new WebSocketServer({ port: 0, handleProtocols: () => 'mqtt' });
  sockets.on('connection', (socket) => socket.on('message', (data) => asked.push(Buffer.from(data as Buffer).toString('latin1'))));
  const { port } = sockets.address() as AddressInfo;
  try {
    await openJobs(page);
    await page.evaluate(
      (value) =>
        new Promise<void>((resolve, reject) => {
          const open = indexedDB.open('quillwind');
          open.onerror = () => reject(open.error);
          open.onsuccess = () => {
            const transaction = open.result.transaction('settings', 'readwrite');
            transaction.objectStore('settings').put(value, 'link');
            transaction.oncomplete = () => (open.result.close(), resolve());
          };
        }),
      { address: 'ws://localhost:9/link', user: 'lead', password: 'typed-for-another', on: false },
    );
    const address = `ws://localhost:${port}/link`;
    await page.goto('about:blank');
    await page.goto(`./#/ground/${DEMO_JOB.id}/join?link=${encodeURIComponent(address)}`);
    const notice = page.locator('[data-other-host]');
    await expect(notice).toContainText(`localhost:${port}`);
    await expect(notice).toContainText('localhost:9');
    await expect(page.getByLabel(/^Address, from/).first()).toHaveValue('ws://localhost:9/link');
    await page.getByRole('button', { name: `Use localhost:${port}` }).click();
    await expect(page.getByLabel('This device’s name there')).toHaveValue('');
    await expect(page.getByLabel('Password, kept on this device alone')).toHaveValue('');
    await page.getByRole('button', { name: 'Link up' }).click();
    await expect(page.locator('.ground-link .fault')).toBeVisible();
    expect(asked).toEqual([]);
    await page.getByLabel('This device’s name there').fill('guest');
    await page.getByLabel('Password, kept on this device alone').fill('typed-for-this');
    await page.getByRole('button', { name: 'Link up' }).click();
    await expect.poll(() => asked.length).toBeGreaterThan(0);
    expect(asked.join('')).not.toContain('typed-for-another');
    // From now on the page reaches no other host of the link.
    expect(
      await page.evaluate(
        () =>
          new Promise<string>((resolve) => {
            const socket = new WebSocket('ws://localhost:9/');
            document.addEventListener('securitypolicyviolation', (event) => resolve(event.effectiveDirective));
            socket.addEventListener('open', () => resolve('open'));
          }),
      ),
    ).toBe('connect-src');
  } finally {
    sockets.close();
  }
});
