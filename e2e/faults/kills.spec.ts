import { expect, test } from '@playwright/test';
import { uniformFrom } from '../../tests/flight/random.ts';
import { killBrowserOf } from '../browser-kill.ts';
import { beginRehearsal } from '../write-flight.ts';
import { acknowledged, storedRows } from '../write-log.ts';
import { openJobs } from '../stored-jobs.ts';

/** Forty in the nightly run and in the show; a few in every run. */
const KILLS = Number(process.env['QUILLWIND_KILLS'] ?? 4);
const SEED = Number(process.env['QUILLWIND_SEED'] ?? Date.now() % 100_000);
const FLYING = /run-in|stroke|reposition|go-around|hold|finished/;

/**
 * The app itself, killed at random moments of one flight. This process counts the rows that the page called saved; it
 * lives on while the browser dies.
 */
test(`${KILLS} kills of the browser at random times lose no acknowledged row, and the flight goes on by itself`, async ({
  playwright,
  launchOptions,
  baseURL,
}, info) => {
  test.setTimeout(60_000 + KILLS * 20_000);
  info.annotations.push({ type: 'seed', description: String(SEED) });
  const uniform = uniformFrom(SEED);
  const profile = info.outputPath('profile');
  const options = { ...launchOptions, baseURL: baseURL! };
  let counted = { flightId: '', sequence: -1 };
  let resumedWithin = 0;
  for (let kill = 0; kill <= KILLS; kill += 1) {
    const context = await playwright.chromium.launchPersistentContext(profile, options);
    const page = await context.newPage();
    await page.exposeFunction('count', (flightId: string, sequence: number) => {
      if (sequence > counted.sequence) counted = { flightId, sequence };
    });
    if (kill === 0) {
      await openJobs(page);
      await beginRehearsal(page, 3);
    } else {
      const startedAt = performance.now();
      await page.goto('./');
      await expect(page.locator('[data-cue="phase"]')).toHaveAttribute('data-value', FLYING, { timeout: 20_000 });
      resumedWithin = Math.max(resumedWithin, (performance.now() - startedAt) / 1000);
      expect((await acknowledged(page)).flightId).toBe(counted.flightId);
      const rows = await storedRows(page, counted.flightId);
      expect(rows.length, `kill ${kill}, seed ${SEED}`).toBeGreaterThan(counted.sequence);
      // Every number once: nothing lost in between, nothing doubled.
      expect(rows.map(({ sequence }) => sequence)).toEqual(rows.map((_, index) => index));
      expect(rows.filter(({ kind }) => kind === 'flightResumed').length).toBeGreaterThanOrEqual(kill - 1);
    }
    if (kill === KILLS) {
      await context.close();
      break;
    }
    await page.evaluate(() => {
      const element = document.querySelector('[data-log-confirmed]')!;
      const tell = (): void =>
        (window as unknown as { count: (flightId: string, sequence: number) => void }).count(
          element.getAttribute('data-flight') ?? '',
          Number(element.getAttribute('data-log-confirmed')),
        );
      new MutationObserver(tell).observe(element, { attributes: true });
      tell();
    });
    const before = counted.sequence;
    await page.waitForTimeout(300 + uniform() * 1700);
    await killBrowserOf(profile);
    // Its browser is gone; closing it would wait for ever.
    void context.close().catch(() => {});
    expect(counted.sequence, `kill ${kill}, seed ${SEED}`).toBeGreaterThan(before);
  }
  const says = `${counted.sequence + 1} rows acknowledged over ${KILLS} kills, none lost; resumed within ${resumedWithin.toFixed(1)} s at the slowest`;
  info.annotations.push({ type: 'kills', description: says });
  process.stdout.write(`      ${says} (seed ${SEED})\n`);
});

test('a crashed page is opened again where it was, without a lost row', async ({ context }) => {
  const page = await context.newPage();
  await openJobs(page);
  await beginRehearsal(page, 5);
  await expect.poll(async () => (await acknowledged(page)).sequence).toBeGreaterThan(40);
  const before = await acknowledged(page);
  const crashed = page.waitForEvent('crash');
  void page.goto('chrome://crash').catch(() => {});
  await crashed;
  const again = await context.newPage();
  await again.goto('./');
  await expect(again.locator('[data-cue="phase"]')).toHaveAttribute('data-value', FLYING, { timeout: 20_000 });
  expect((await acknowledged(again)).flightId).toBe(before.flightId);
  const rows = await storedRows(again, before.flightId);
  expect(rows.length).toBeGreaterThan(before.sequence);
  expect(rows.map(({ sequence }) => sequence)).toEqual(rows.map((_, index) => index));
});
