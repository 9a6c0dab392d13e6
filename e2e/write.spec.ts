import { expect, type Page, test } from '@playwright/test';
import { killBrowserOf } from './browser-kill.ts';
import { beginDeviceFlight, beginRehearsal, flyUntil, holdClock, openStartPanel, shownCues } from './write-flight.ts';
import { acknowledged, storedRows } from './write-log.ts';
import { openJobs } from './stored-jobs.ts';
import { openDraw } from './typed-job.ts';

const caution = (page: Page, words: string) => page.locator('.write-caution', { hasText: words });

test.describe('the log', () => {
  test('loses no acknowledged row to a killed browser, and the flight goes on by itself in under 5 s', async ({ playwright, launchOptions, baseURL }, info) => {
    test.setTimeout(180_000);
    const profile = info.outputPath('profile');
    const options = { ...launchOptions, baseURL: baseURL! };
    const first = await playwright.chromium.launchPersistentContext(profile, options);
    const page = await first.newPage();
    await openJobs(page);
    await beginRehearsal(page, 20);
    await expect(page.locator('[data-cue="phase"]')).toHaveAttribute('data-value', 'stroke', { timeout: 60_000 });
    await expect.poll(async () => (await acknowledged(page)).sequence, { timeout: 20_000 }).toBeGreaterThan(300);
    const before = await acknowledged(page);
    await killBrowserOf(profile);
    // Its browser is gone; closing it would wait for ever.
    void first.close().catch(() => {});

    const second = await playwright.chromium.launchPersistentContext(profile, options);
    const again = await second.newPage();
    const startedAt = performance.now();
    await again.goto('./');
    // Nothing is touched: the cues stand there by themselves, and the aircraft flies by them.
    await expect(again.locator('[data-cue="phase"]')).toHaveAttribute('data-value', /run-in|stroke|reposition|go-around/, { timeout: 20_000 });
    const seconds = (performance.now() - startedAt) / 1000;
    info.annotations.push({ type: 'resumed', description: `${seconds.toFixed(2)} s` });
    expect(seconds).toBeLessThan(5);
    expect((await acknowledged(again)).flightId).toBe(before.flightId);

    const rows = await storedRows(again, before.flightId);
    expect(rows.slice(0, before.sequence + 1).map(({ sequence }) => sequence)).toEqual(Array.from({ length: before.sequence + 1 }, (_, sequence) => sequence));
    expect(rows.slice(0, before.sequence + 1).filter(({ kind }) => kind === 'fixReceived').length).toBeGreaterThan(20);
    expect(rows.filter(({ kind }) => kind === 'flightResumed')).toHaveLength(1);
    await expect.poll(async () => (await acknowledged(again)).sequence).toBeGreaterThan(rows.length + 20);
    // No gap between what was before the kill and what came after.
    const later = await storedRows(again, before.flightId);
    expect(later.map(({ sequence }) => sequence)).toEqual(later.map((_, index) => index));
    await second.close();
  });

  test('says LOG NOT SAVING while the store fails, cues on, and writes everything when it heals', async ({ page }) => {
    await page.addInitScript(() => {
      const add = IDBObjectStore.prototype.add;
      IDBObjectStore.prototype.add = function (...given) {
        if ((window as { storeFails?: boolean }).storeFails === true) throw new DOMException('no room', 'QuotaExceededError');
        return add.apply(this, given);
      };
    });
    await openJobs(page);
    await beginRehearsal(page, 2);
    await expect.poll(async () => (await acknowledged(page)).sequence).toBeGreaterThan(20);
    await page.evaluate(() => ((window as { storeFails?: boolean }).storeFails = true));
    await expect(caution(page, 'LOG NOT SAVING')).toBeVisible({ timeout: 6_000 });
    const stuck = await acknowledged(page);
    const ages = new Set<string | undefined>();
    await expect.poll(async () => ages.add((await shownCues(page))['fix-age']).size, { intervals: [130] }).toBeGreaterThan(3);
    await page.evaluate(() => ((window as { storeFails?: boolean }).storeFails = false));
    await expect(caution(page, 'LOG NOT SAVING')).toHaveCount(0, { timeout: 6_000 });
    await expect.poll(async () => (await acknowledged(page)).sequence).toBeGreaterThan(stuck.sequence + 40);
    const rows = await storedRows(page, stuck.flightId);
    expect(rows.map(({ sequence }) => sequence)).toEqual(rows.map((_, index) => index));
  });

  test('has one writer: a second tab reads, and goes on with the flight when the first is gone', async ({ context }) => {
    const flying = await context.newPage();
    await openJobs(flying);
    await beginRehearsal(flying, 5);
    await expect.poll(async () => (await acknowledged(flying)).sequence).toBeGreaterThan(20);
    const second = await context.newPage();
    await second.goto('./#/write/lake-ondine');
    await expect(second.getByRole('heading', { name: 'A flight is on in another tab' })).toBeVisible();
    const { flightId } = await acknowledged(flying);
    await flying.close();
    await expect(second.locator('[data-cue="phase"]')).toHaveAttribute('data-value', /run-in|stroke|reposition|go-around/, { timeout: 10_000 });
    expect((await acknowledged(second)).flightId).toBe(flightId);
  });
});

test.describe('positions', () => {
  test.describe('without the permission', () => {
    test.use({ permissions: [] });

    test('says so on the ground and in the air, and cues nothing', async ({ page }) => {
      await openJobs(page);
      await openStartPanel(page);
      await page.getByRole('radio', { name: /This device/ }).check();
      const check = page.locator('[data-check="Position"]');
      await expect(check).toHaveAttribute('data-state', 'bad');
      await expect(check).toContainText('not allowed to know the location');
      await expect(page.locator('.write-start-hint')).toHaveText(/Not ready: position/);
      await page.getByRole('button', { name: 'Start flight' }).click();
      await expect(page.locator('.write-notice-why')).toHaveText(/location is not allowed/);
      expect(await shownCues(page)).toMatchObject({ phase: 'standby', turn: '', heading: '', smoke: 'off', 'smoke-in': '', 'fix-age': '' });
    });
  });

  test('an approximate location is called one, and nothing is cued from it', async ({ page, context }) => {
    await context.setGeolocation({ latitude: 43.9, longitude: -74.4, accuracy: 12_000 });
    await openJobs(page);
    await openStartPanel(page);
    await page.getByRole('radio', { name: /This device/ }).check();
    await expect(page.locator('[data-check="Position"]')).toContainText('Only an approximate location, to 12 km');
    await page.getByRole('button', { name: 'Start flight' }).click();
    await context.setGeolocation({ latitude: 43.91, longitude: -74.41, accuracy: 12_000 });
    await expect(page.locator('.write-notice-why')).toHaveText(/only approximate/);
    expect((await shownCues(page)).heading).toBe('');
  });

  test('no fix at all is called missing, not before it has been waited for', async ({ page, context }) => {
    await context.setGeolocation(null);
    await page.clock.install();
    await openJobs(page);
    await openStartPanel(page);
    await page.getByRole('radio', { name: /This device/ }).check();
    const check = page.locator('[data-check="Position"]');
    await expect(check).toHaveAttribute('data-state', 'open');
    await page.clock.runFor(16_000);
    await expect(check).toHaveAttribute('data-state', 'bad');
    await expect(check).toContainText('No fix came');
  });

  test('blank the cue when the page was hidden, until a fresh fix', async ({ page }) => {
    test.setTimeout(120_000);
    await beginDeviceFlight(page);
    await flyUntil(page, ({ phase }) => phase === 'reposition');
    await page.evaluate(() => {
      Object.defineProperty(document, 'visibilityState', { value: 'hidden', configurable: true });
      document.dispatchEvent(new Event('visibilitychange'));
    });
    const hidden = await flyUntil(page, ({ phase }) => phase === 'no-cue', 8);
    expect(hidden).toMatchObject({ turn: '', heading: '', 'heading-true': '', bank: '', 'smoke-in': '', 'cross-track': '' });
    await expect(page.locator('.write-notice-why')).toHaveText(/page was hidden/);
    await expect(page.locator('.write-heading')).toBeHidden();
    await page.evaluate(() => {
      Object.defineProperty(document, 'visibilityState', { value: 'visible', configurable: true });
      document.dispatchEvent(new Event('visibilitychange'));
    });
    await flyUntil(page, ({ phase }) => phase === 'reposition', 10);
  });

  test('blank the cue when the wall clock is set, until a fresh fix', async ({ page }) => {
    test.setTimeout(120_000);
    await beginDeviceFlight(page);
    await flyUntil(page, ({ phase }) => phase === 'reposition');
    await page.evaluate(() => {
      const now = Date.now;
      Date.now = () => now() + 6 * 3_600_000;
    });
    await page.clock.runFor(100);
    expect((await shownCues(page)).phase).toBe('no-cue');
    await flyUntil(page, ({ phase }) => phase === 'reposition', 10);
  });

  test('come from a recording, at its own pace and with its own end', async ({ page }) => {
    const start = Date.UTC(2026, 5, 20, 15, 0, 0);
    const points = Array.from({ length: 40 }, (_, second) => {
      const time = new Date(start + second * 1000).toISOString();
      return `<trkpt lat="${(43.85 + second * 0.0005).toFixed(6)}" lon="-74.4318"><ele>3200</ele><time>${time}</time></trkpt>`;
    });
    const gpx = `<?xml version="1.0"?><gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1"><trk><name>North</name><trkseg>${points.join('')}</trkseg></trk></gpx>`;
    await page.clock.install();
    await openJobs(page);
    await openStartPanel(page);
    await page.getByRole('radio', { name: /A recording/ }).check();
    await expect(page.getByRole('button', { name: /^Start/ })).toBeDisabled();
    await page
      .getByLabel('File', { exact: true })
      .setInputFiles([{ name: 'bomb.gpx', mimeType: 'application/gpx+xml', buffer: Buffer.from('<!DOCTYPE x [<!ENTITY a "b">]><gpx/>') }]);
    await expect(page.getByRole('alert')).toContainText('document type or an entity');
    await page.getByLabel('File', { exact: true }).setInputFiles([{ name: 'north.gpx', mimeType: 'application/gpx+xml', buffer: Buffer.from(gpx) }]);
    await expect(page.getByLabel('Track')).toContainText('North, 40 fixes, 0:39');
    await page.getByRole('button', { name: 'Start recording' }).click();
    await flyUntil(page, ({ heading }) => heading !== '', 10);
    await flyUntil(page, ({ phase }) => phase === 'no-cue', 60);
  });
});

test.describe('touches', () => {
  test('knock it off only when held for 0.8 s, and take it back the same way', async ({ page }) => {
    await page.clock.install();
    await openJobs(page);
    await beginRehearsal(page, 1);
    // Or the room's own time passes between press and release.
    await holdClock(page);
    await flyUntil(page, ({ phase }) => phase === 'reposition', 20);
    const knock = page.getByRole('button', { name: /^KNOCK/ });
    await knock.hover();
    await page.mouse.down();
    await page.clock.runFor(700);
    await page.mouse.up();
    await page.clock.runFor(1000);
    expect((await shownCues(page)).phase).toBe('reposition');
    await knock.hover();
    await page.mouse.down();
    await page.clock.runFor(900);
    await page.mouse.up();
    expect(await shownCues(page)).toMatchObject({ phase: 'finished', smoke: 'off' });
    await page.getByRole('button', { name: /^UNDO/ }).focus();
    await page.keyboard.down('Enter');
    await page.clock.runFor(900);
    await page.keyboard.up('Enter');
    await flyUntil(page, ({ phase }) => phase === 'reposition', 2);
  });

  test('skip, and undo in the same place; move the datum before the first smoke', async ({ page }) => {
    await page.clock.install();
    await openJobs(page);
    await beginRehearsal(page, 1);
    await flyUntil(page, ({ phase }) => phase === 'reposition', 20);
    const skip = await page.getByRole('button', { name: /^SKIP/ }).boundingBox();
    // The first change counts: what is left may be in another order a moment later.
    const next = page.locator('[data-cue="stroke"]').evaluate(
      (cue) =>
        new Promise((resolve) => {
          new MutationObserver(() => resolve(cue.getAttribute('data-value'))).observe(cue, { attributeFilter: ['data-value'] });
        }),
    );
    await page.getByRole('button', { name: /^SKIP/ }).click();
    expect(await next).toBe('2/5');
    await flyUntil(page, () => true);
    expect(await page.getByRole('button', { name: /^UNDO skip/ }).boundingBox()).toEqual(skip);
    await page.getByRole('button', { name: /^UNDO skip/ }).click();
    expect((await flyUntil(page, () => true)).stroke).toBe('1/5');
    await expect(page.locator('[data-figure="hung"]')).not.toContainText('where you put it');
    await page.getByRole('button', { name: /^DATUM/ }).click();
    await flyUntil(page, ({ 'smoke-in': smokeIn }) => smokeIn !== '', 5);
    await expect(page.locator('[data-figure="hung"]')).toContainText('where you put it');
    await page.getByRole('button', { name: /^UNDO datum/ }).click();
    await flyUntil(page, ({ 'smoke-in': smokeIn }) => smokeIn !== '', 5);
    await expect(page.locator('[data-figure="hung"]')).not.toContainText('where you put it');
    await expect(page.getByRole('button', { name: /^DATUM/ })).toBeVisible();
  });

  test('find oil, fuel and the way to the line in the units chosen on Draw', async ({ page }) => {
    await openDraw(page);
    for (const [kind, unit] of [
      [/^Heights/, 'm'],
      [/^Distances/, 'km'],
      [/^Weights/, 'kg'],
      [/^Volumes/, 'l'],
    ] as const)
      await page.getByLabel(kind).selectOption(unit);
    await page.clock.install();
    await openStartPanel(page);
    await expect(page.locator('.write-ground-figures')).toContainText(/ km, smoke on for .* kg of oil/);
    await beginRehearsal(page, 1);
    await flyUntil(page, ({ phase }) => phase === 'reposition', 20);
    await expect(page.locator('.write-fact-oil')).toContainText('181 kg');
    await expect(page.locator('[data-figure="fuel"]')).toContainText(/\d l/);
    // What machines read stays as it was: 400 lb in kilograms.
    expect((await shownCues(page)).oil).toMatch(/^181\./);
  });

  test('leave no way off the cues while the flight lasts', async ({ page }) => {
    await openJobs(page);
    await beginRehearsal(page, 1);
    await expect(page.locator('.write')).toBeVisible();
    await page.evaluate(() => (location.hash = '#/jobs'));
    await page.waitForTimeout(300);
    await expect(page.locator('.write')).toBeVisible();
    await expect(page.getByRole('navigation')).toBeHidden();
    expect(await page.locator('dialog[open], [role="dialog"]').count()).toBe(0);
  });

  test('mark the true switch by the key that was shown', async ({ page }) => {
    await page.clock.install();
    await page.setViewportSize({ width: 1024, height: 768 });
    await openJobs(page);
    await openStartPanel(page);
    await page.getByRole('button', { name: 'Show me the switch' }).click();
    await page.keyboard.press('b');
    await expect(page.getByText('Key KeyB')).toBeVisible();
    await page.getByLabel(/^Pace/).fill('1');
    await page.getByRole('button', { name: 'Start rehearsal' }).click();
    await flyUntil(page, ({ phase }) => phase === 'reposition', 20);
    await page.keyboard.press('b');
    await expect(page.locator('.write-switch')).toHaveText('switch is ON');
    await page.clock.runFor(2_500);
    await expect(caution(page, 'SWITCH IS ON')).toBeVisible();
    await page.keyboard.press('b');
    await expect(caution(page, 'SWITCH IS ON')).toHaveCount(0);
  });

  test('leave a finished flight for its debrief, and the next start is on the ground', async ({ page }) => {
    test.setTimeout(120_000);
    await openJobs(page);
    await beginRehearsal(page, 20);
    await expect(page.locator('[data-cue="phase"]')).toHaveAttribute('data-value', 'finished', { timeout: 90_000 });
    await page.getByRole('button', { name: /^LEAVE/ }).click();
    await expect(page).toHaveURL(/#\/debrief\/lake-ondine$/);
    await page.reload();
    await page.goto('./#/write/lake-ondine');
    await expect(page.getByRole('button', { name: 'Start rehearsal' })).toBeEnabled();
  });
});
