import { type BrowserContext, expect, type Page, test } from '@playwright/test';
import { renderersOf, signal } from '../browser-kill.ts';
import { beginDeviceFlight, beginRehearsal, flyUntil, openStartPanel, shownCues } from '../write-flight.ts';
import { acknowledged, storedRows } from '../write-log.ts';
import { openJobs } from '../stored-jobs.ts';

const caution = (page: Page, words: string) => page.locator('.write-caution', { hasText: words });
const NO_VALUES = { turn: '', heading: '', 'heading-true': '', bank: '', 'smoke-in': '', 'cross-track': '' };
const CUED = /run-in|stroke|reposition|go-around/;

/** Moves the device's own receiver north at 60 m/s in the room's time, until stopped. */
async function flyTheReceiver(context: BrowserContext): Promise<{ stop(): Promise<void> }> {
  let flying = true;
  const startedAt = performance.now();
  const done = (async () => {
    while (flying) {
      const metres = (60 * (performance.now() - startedAt)) / 1000;
      await context.setGeolocation({ latitude: 43.85 + metres / 111_320, longitude: -74.4318, accuracy: 7 });
      await new Promise((resolve) => setTimeout(resolve, 500));
    }
  })();
  return {
    stop: async () => {
      flying = false;
      await done;
    },
  };
}

async function beginWithReceiver(page: Page, context: BrowserContext): Promise<{ stop(): Promise<void> }> {
  const receiver = await flyTheReceiver(context);
  await openJobs(page);
  await openStartPanel(page);
  await page.getByRole('radio', { name: /This device/ }).check();
  await page.getByRole('button', { name: 'Start flight' }).click();
  await expect(page.locator('[data-cue="phase"]')).toHaveAttribute('data-value', CUED, { timeout: 20_000 });
  return receiver;
}

test('the permission is taken back in flight: blank within 3 s, said why, nothing asked over the cue', async ({ page, context }) => {
  const receiver = await beginWithReceiver(page, context);
  await receiver.stop();
  await context.clearPermissions();
  await expect(page.locator('[data-cue="phase"]')).toHaveAttribute('data-value', 'no-cue', { timeout: 6_000 });
  expect(await shownCues(page)).toMatchObject(NO_VALUES);
  expect(await page.locator('dialog[open], [role="dialog"], [role="alertdialog"]').count()).toBe(0);
  await context.grantPermissions(['geolocation', 'screen-wake-lock']);
  const again = await flyTheReceiver(context);
  await expect(page.locator('[data-cue="phase"]')).toHaveAttribute('data-value', CUED, { timeout: 20_000 });
  await again.stop();
});

test('the receiver falls silent: amber, then blank, and cues again after it speaks', async ({ page, context }) => {
  const receiver = await beginWithReceiver(page, context);
  await receiver.stop();
  await context.setGeolocation(null);
  await expect(caution(page, 'FIX LATE')).toBeVisible({ timeout: 3_000 });
  await expect(page.locator('[data-cue="phase"]')).toHaveAttribute('data-value', 'no-cue', { timeout: 4_000 });
  expect(await shownCues(page)).toMatchObject(NO_VALUES);
  const again = await flyTheReceiver(context);
  await expect(page.locator('[data-cue="phase"]')).toHaveAttribute('data-value', CUED, { timeout: 20_000 });
  await again.stop();
});

test('the page stands still for 3.5 s, stopped by the system: nothing is cued from before, no row is lost', async ({
  playwright,
  launchOptions,
  baseURL,
}, info) => {
  const profile = info.outputPath('profile');
  const context = await playwright.chromium.launchPersistentContext(profile, {
    ...launchOptions,
    baseURL: baseURL!,
    permissions: ['geolocation', 'screen-wake-lock'],
  });
  const page = await context.newPage();
  const receiver = await beginWithReceiver(page, context);
  // What the screen shows in the first frame of its own after it wakes.
  await page.evaluate(() => {
    const told = window as unknown as { atWaking: string | null };
    told.atWaking = null;
    let last = performance.now();
    const look = (): void => {
      const now = performance.now();
      if (now - last > 3000 && told.atWaking === null)
        setTimeout(() => (told.atWaking = document.querySelector('[data-cue="phase"]')!.getAttribute('data-value')), 0);
      last = now;
      setTimeout(look, 50);
    };
    look();
  });
  const stopped = renderersOf(profile);
  expect(stopped.length).toBeGreaterThan(0);
  await receiver.stop();
  for (const pid of stopped) signal(pid, 'SIGSTOP');
  await new Promise((resolve) => setTimeout(resolve, 3500));
  for (const pid of stopped) signal(pid, 'SIGCONT');
  await expect.poll(() => page.evaluate(() => (window as unknown as { atWaking: string | null }).atWaking)).toBe('no-cue');
  const again = await flyTheReceiver(context);
  await expect(page.locator('[data-cue="phase"]')).toHaveAttribute('data-value', CUED, { timeout: 20_000 });
  await again.stop();
  const { flightId } = await acknowledged(page);
  const rows = await storedRows(page, flightId);
  expect(rows.map(({ sequence }) => sequence)).toEqual(rows.map((_, index) => index));
  await context.close();
});

test('ten minutes asleep: blank at the waking, then the flight goes on', async ({ page }) => {
  test.setTimeout(120_000);
  await beginDeviceFlight(page);
  await flyUntil(page, ({ phase }) => phase === 'reposition');
  // Timers fire once at the most, as after a closed lid.
  await page.clock.fastForward(600_000);
  await page.clock.runFor(100);
  expect(await shownCues(page)).toMatchObject({ phase: 'no-cue', ...NO_VALUES });
  await flyUntil(page, ({ phase }) => CUED.test(phase!), 20);
});

test('the main thread is stalled for 2 s at every moment of a run-in: no late ON, no row lost, cues again', async ({ page }) => {
  await openJobs(page);
  await beginRehearsal(page, 1);
  await expect(page.locator('[data-cue="phase"]')).toHaveAttribute('data-value', CUED, { timeout: 20_000 });
  const { flightId, sequence } = await acknowledged(page);
  for (let stall = 0; stall < 2; stall += 1) {
    await page.evaluate(() => {
      const until = performance.now() + 2000;
      while (performance.now() < until);
    });
    const cues = await shownCues(page);
    expect(cues['fix-age'] === '' || Number(cues['fix-age']) < 3 || cues['phase'] === 'no-cue').toBe(true);
    await expect(page.locator('[data-cue="phase"]')).toHaveAttribute('data-value', CUED, { timeout: 5_000 });
  }
  await expect.poll(async () => (await acknowledged(page)).sequence).toBeGreaterThan(sequence + 10);
  const rows = await storedRows(page, flightId);
  expect(rows.map((row) => row.sequence)).toEqual(rows.map((_, index) => index));
});

test('the wake lock is refused: said before the flight and in it, and the cues go on', async ({ page }) => {
  await page.addInitScript(() => {
    Object.defineProperty(navigator, 'wakeLock', { value: { request: () => Promise.reject(new DOMException('low power', 'NotAllowedError')) } });
  });
  await openJobs(page);
  await openStartPanel(page);
  const check = page.locator('[data-check]', { hasText: /screen/i });
  await expect(check.first()).not.toHaveAttribute('data-state', 'good');
  await beginRehearsal(page, 2);
  await expect(caution(page, 'SCREEN MAY SLEEP')).toBeVisible();
  await expect(page.locator('[data-cue="phase"]')).toHaveAttribute('data-value', CUED, { timeout: 20_000 });
});

test('the sound is interrupted, its clock frozen: SOUND OFF, cues on, and gone when it plays again', async ({ page }) => {
  await page.addInitScript(() => {
    const Real = window.AudioContext;
    const told = window as unknown as { sounds: AudioContext[]; frozen: boolean };
    told.sounds = [];
    told.frozen = false;
    window.AudioContext = class extends Real {
      constructor(...given: ConstructorParameters<typeof AudioContext>) {
        super(...given);
        told.sounds.push(this);
      }
      override resume(): Promise<void> {
        // As in a phone call: the system does not let it go on.
        return told.frozen ? new Promise(() => {}) : super.resume();
      }
    };
  });
  await openJobs(page);
  await beginRehearsal(page, 2);
  await expect(page.locator('[data-cue="phase"]')).toHaveAttribute('data-value', CUED, { timeout: 20_000 });
  await expect(caution(page, 'SOUND OFF')).toHaveCount(0, { timeout: 10_000 });
  await page.evaluate(() => {
    const told = window as unknown as { sounds: AudioContext[]; frozen: boolean };
    told.frozen = true;
    return Promise.all(told.sounds.filter(({ state }) => state !== 'closed').map((sound) => sound.suspend()));
  });
  await expect(caution(page, 'SOUND OFF')).toBeVisible({ timeout: 4_000 });
  await expect(page.locator('[data-cue="phase"]')).not.toHaveAttribute('data-value', 'no-cue');
  await page.evaluate(() => ((window as unknown as { frozen: boolean }).frozen = false));
  await page.mouse.click(5, 5);
  await expect(caution(page, 'SOUND OFF')).toHaveCount(0, { timeout: 10_000 });
});

test('320 pixels wide: phase, heading and smoke stand on the screen, nothing is cut off at the sides', async ({ page }) => {
  await page.setViewportSize({ width: 320, height: 640 });
  await openJobs(page);
  await beginRehearsal(page, 2);
  await expect(page.locator('[data-cue="phase"]')).toHaveAttribute('data-value', CUED, { timeout: 20_000 });
  for (const name of ['phase', 'heading', 'smoke']) {
    const box = (await page.locator(`[data-cue="${name}"]`).boundingBox())!;
    expect(box.x, name).toBeGreaterThanOrEqual(0);
    expect(box.x + box.width, name).toBeLessThanOrEqual(320);
    expect(box.y + box.height, name).toBeLessThanOrEqual(640);
  }
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
});
