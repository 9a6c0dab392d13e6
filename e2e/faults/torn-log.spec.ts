import { mkdtempSync, readdirSync, rmSync, statSync, truncateSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, type Page, test } from '@playwright/test';
import { killBrowserOf } from '../browser-kill.ts';

/** What a kill in the middle of a write leaves of the last record in the browser's storage log. */
const TORN_BYTES = 700;

test('a storage log whose end a kill tore costs nothing two starts later', async ({ playwright, launchOptions, baseURL }) => {
  const profile = mkdtempSync(join(tmpdir(), 'quillwind-torn-'));
  const folder = (): string => {
    const all = join(profile, 'Default', 'IndexedDB');
    return join(all, readdirSync(all).find((name) => name.endsWith('.leveldb')) ?? '');
  };
  const begin = async (): Promise<{ readonly page: Page; readonly close: () => Promise<void> }> => {
    const context = await playwright.chromium.launchPersistentContext(profile, { ...launchOptions, ...(baseURL === undefined ? {} : { baseURL }) });
    const page = await context.newPage();
    await page.goto('./');
    await page.locator('.job-card').first().waitFor();
    await expect(page.locator('html[data-log="renewed"]')).toBeAttached({ timeout: 20_000 });
    return { page, close: () => context.close() };
  };
  const duplicate = async (page: Page, jobs: number): Promise<void> => {
    await page.getByRole('button', { name: 'Duplicate' }).first().click();
    await expect(page.locator('.job-card')).toHaveCount(jobs);
    await page.waitForTimeout(300);
  };
  try {
    const first = await begin();
    for (let jobs = 2; jobs <= 4; jobs += 1) await duplicate(first.page, jobs);
    await killBrowserOf(profile);
    void first.close().catch(() => {});
    const log = join(folder(), readdirSync(folder()).find((name) => name.endsWith('.log')) ?? '');
    truncateSync(log, statSync(log).size - TORN_BYTES);
    const second = await begin();
    const left = await second.page.locator('.job-card').count();
    expect(left).toBeGreaterThanOrEqual(3);
    await duplicate(second.page, left + 1);
    await second.close();
    const third = await begin();
    await expect(third.page.locator('.job-card')).toHaveCount(left + 1);
    await third.close();
  } finally {
    rmSync(profile, { recursive: true, force: true });
  }
});
