import { expect, type Page, test } from '@playwright/test';
import { uniformFrom } from '../../tests/flight/random.ts';
import { killBrowserOf } from '../browser-kill.ts';
import { openJobs } from '../stored-jobs.ts';
import { openDraw, storedDemoJob } from '../typed-job.ts';

/** A hundred in the show; a few in every run. */
const KILLS = Number(process.env['QUILLWIND_KILLS'] ?? 3);
const SEED = Number(process.env['QUILLWIND_SEED'] ?? Date.now() % 100_000);
/** P20: what was typed is stored at most so much later. */
const LIMIT_MILLISECONDS = 1000;
const KEY_MILLISECONDS = 60;

test(`${KILLS} kills of the browser while somebody types lose at most the last second of keys`, async ({ playwright, launchOptions, baseURL }, info) => {
  test.setTimeout(60_000 + KILLS * 20_000);
  const uniform = uniformFrom(SEED);
  const profile = info.outputPath('profile');
  const options = { ...launchOptions, baseURL: baseURL! };
  /** What had been typed, with the moment at which each key had been taken. */
  let typed: { readonly length: number; readonly atMilliseconds: number }[] = [];
  let before = '';
  let said = '';
  let worstLostMilliseconds = 0;
  let keys = 0;
  for (let kill = 0; kill <= KILLS; kill += 1) {
    const context = await playwright.chromium.launchPersistentContext(profile, options);
    const page = await context.newPage();
    let savedText = '';
    await page.exposeFunction('saidSaved', (notes: string) => (savedText = notes));
    if (kill === 0) await openJobs(page);
    await openDraw(page);
    const notes = page.getByLabel('Notes');
    const stored = (await storedDemoJob(page)).notes;
    if (kill > 0) {
      expect(stored.startsWith(before), `seed ${SEED}, kill ${kill}: what was there before stays`).toBe(true);
      const lost = typed.filter(({ length }) => length > stored.length);
      const killedAt = typed.at(-1)?.atMilliseconds ?? 0;
      const [oldest] = lost;
      if (oldest !== undefined) worstLostMilliseconds = Math.max(worstLostMilliseconds, killedAt - oldest.atMilliseconds);
      expect(stored.length, `seed ${SEED}, kill ${kill}: what the page called saved`).toBeGreaterThanOrEqual(said.length);
      expect(await notes.inputValue()).toBe(stored);
    }
    if (kill === KILLS) {
      await context.close();
      break;
    }
    await page.evaluate(() => {
      const state = document.querySelector('[data-save]')!;
      const field = [...document.querySelectorAll('textarea')].find((each) => each.labels[0]?.textContent?.includes('Notes') === true)!;
      const tell = (): void => {
        if (state.getAttribute('data-save') === 'saved') (window as unknown as { saidSaved: (notes: string) => void }).saidSaved(field.value);
      };
      new MutationObserver(tell).observe(state, { attributes: true });
    });
    // Begins afresh where the field is nearly full.
    before = stored.length > 3000 ? '' : stored;
    typed = [];
    await notes.fill(before);
    await notes.press('End');
    await page.keyboard.press('Control+End');
    await expect(page.locator('[data-save]')).toHaveAttribute('data-save', 'saved');
    let isAlive = true;
    const afterMilliseconds = 1200 + uniform() * 1800;
    // It dies under the fingers: typing goes on until no key is taken any more.
    const killing = new Promise((resolve) => setTimeout(resolve, afterMilliseconds)).then(() => killBrowserOf(profile)).then(() => (isAlive = false));
    for (let key = 0; isAlive; key += 1) {
      const isTaken = await Promise.race([
        page.keyboard.type('abcdefghij'.charAt(key % 10)).then(
          () => true,
          () => false,
        ),
        killing.then(() => false),
      ]);
      if (!isTaken) break;
      keys += 1;
      typed.push({ length: before.length + key + 1, atMilliseconds: performance.now() });
      await new Promise((resolve) => setTimeout(resolve, KEY_MILLISECONDS * uniform() * 2));
    }
    said = savedText;
    await killing;
    // Its browser is gone; closing it would wait for ever.
    void context.close().catch(() => {});
  }
  const says = `${KILLS} kills, ${keys} keys: at most the last ${Math.round(worstLostMilliseconds)} ms of keys lost`;
  info.annotations.push({ type: 'typing', description: says });
  process.stdout.write(`      ${says} (seed ${SEED})\n`);
  expect(worstLostMilliseconds, `seed ${SEED}`).toBeLessThanOrEqual(LIMIT_MILLISECONDS);
});

test('a page that is left in the middle of a word keeps it', async ({ page }) => {
  await openJobs(page);
  for (const word of ['one', 'two', 'three']) {
    await openDraw(page);
    const notes = page.getByLabel('Notes');
    await notes.fill(`${word} `);
    await page.keyboard.type('unfinished');
    // No time for the database, and none for a timer.
    await page.evaluate(() => location.replace('about:blank'));
    await page.waitForURL('about:blank');
    await openDraw(page);
    await expect(page.getByLabel('Notes')).toHaveValue(`${word} unfinished`);
  }
});

test('two tabs on one job see each other\u2019s edits, and what both typed is offered', async ({ page, context }) => {
  await openJobs(page);
  await openDraw(page);
  const second = await context.newPage();
  await openDraw(second);
  await expect(second.locator('[data-reader]')).toBeVisible();
  await page.getByLabel('Notes').fill('from the first');
  await expect(second.getByLabel('Notes')).toHaveValue('from the first');
  await second.getByLabel('Words that call it off').fill('from the second');
  await expect(page.getByLabel('Words that call it off')).toHaveValue('from the second');
  // Both at once: as one does that lost sight of the other tab.
  await Promise.all([page.getByLabel('Notes').fill('one'), second.getByLabel('Notes').fill('two')]);
  const offering = async (): Promise<Page | undefined> => {
    for (const tab of [page, second]) if ((await tab.locator('[data-versions]').count()) > 0) return tab;
    return undefined;
  };
  await expect.poll(async () => (await offering()) !== undefined).toBe(true);
  const shown = (await offering())!;
  await expect(shown.locator('[data-versions]')).toContainText('notes');
  await shown.getByRole('button', { name: 'Take the other' }).click();
  await expect(shown.locator('[data-versions]')).toHaveCount(0);
  const [one, two] = [await page.getByLabel('Notes').inputValue(), await second.getByLabel('Notes').inputValue()];
  await expect.poll(async () => (await storedDemoJob(page)).notes).toBe(await shown.getByLabel('Notes').inputValue());
  expect([one, two].some((each) => each === 'one' || each === 'two')).toBe(true);
});
