import { expect, type Page, test } from '@playwright/test';
import { readFileSync } from 'node:fs';
import { openTextReader, type TextReader } from '../tests/flight/read-text.ts';

let reader: TextReader;

test.beforeAll(async () => {
  reader = await openTextReader();
});
test.afterAll(() => reader.close());

/** The Draw screen of the demo job, once its first plan stands; faults of the page fail the test. */
async function openPlan(page: Page): Promise<void> {
  page.on('pageerror', (error) => {
    throw error;
  });
  await page.goto('./#/draw/lake-ondine');
  await planned(page, 'SAIL');
}

/** Waits until the plan shown is that of the words. */
async function planned(page: Page, words: string): Promise<void> {
  await expect(page.locator('.plan-strip[data-state="planned"] .strip-words')).toHaveText(words, { timeout: 20_000 });
}

async function figure(page: Page, name: string): Promise<number> {
  return Number(await page.locator(`[data-figure="${name}"]`).first().getAttribute('data-value'));
}

const field = (page: Page, name: string) => page.getByRole('textbox', { name, exact: true });
const words = (page: Page) => page.getByLabel('Words in the sky');

test('what is typed is drawn so that a reader reads it, planned, stored, and undone', async ({ page }) => {
  await openPlan(page);
  const before = await figure(page, 'duration-seconds');
  await words(page).fill('REGATTA');
  await planned(page, 'REGATTA');
  expect(await figure(page, 'duration-seconds')).toBeGreaterThan(before);
  // Pixels of the crowd's picture, as they are on the screen.
  expect((await reader.read(await page.locator('.letter-picture svg').first().screenshot())).text).toBe('REGATTA');
  await expect(page.locator('[data-save]')).toHaveAttribute('data-save', 'saved');
  await page.reload();
  await expect(words(page)).toHaveValue('REGATTA');
  await planned(page, 'REGATTA');

  await field(page, 'Letter height').fill('6000');
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(field(page, 'Letter height')).toHaveValue('3937');
  await page.getByRole('button', { name: 'Redo' }).click();
  await expect(field(page, 'Letter height')).toHaveValue('6000');
});

test('from above the word is mirrored: the reader reads it only when the picture is turned over', async ({ page }) => {
  await page.setViewportSize({ width: 1600, height: 1000 });
  await openPlan(page);
  await words(page).fill('DUCK');
  await planned(page, 'DUCK');
  await page.locator('summary', { hasText: 'Where and when' }).click();
  // Facing south the letters' tops point north, so the picture with north up is level and only mirrored.
  await field(page, 'Crowd looks towards, true').fill('180');
  await planned(page, 'DUCK');
  const picture = page.locator('.pilot-picture svg');
  const styled = (look: string) =>
    picture.evaluate((svg, transform) => {
      for (const extra of svg.querySelectorAll<SVGElement>('.way, .stroke-numbers, .plain-arrow')) extra.style.display = 'none';
      for (const stroke of svg.querySelectorAll<SVGElement>('.written')) stroke.style.strokeWidth = '9px';
      (svg as SVGElement).style.transform = transform;
    }, look);
  await styled('none');
  expect((await reader.read(await picture.screenshot())).text).not.toBe('DUCK');
  await styled('scaleX(-1)');
  expect((await reader.read(await picture.screenshot())).text).toBe('DUCK');
});

test('wrong input is named where it is entered, and nothing is lost', async ({ page }) => {
  await openPlan(page);
  await words(page).fill('SAIL \u4e2d');
  await expect(page.getByText(/There is no drawing for/)).toBeVisible();
  await expect(page.locator('.plan-strip .strip-words')).toHaveText('SAIL');
  await expect(page.locator('[data-save]')).toHaveAttribute('data-save', 'saved');
  await words(page).fill('');
  await expect(page.getByText(/There is no text to write/)).toBeVisible();
  // A job without words is stored as it is: nobody has said them yet.
  await expect(page.locator('[data-save]')).toHaveAttribute('data-save', 'saved');
  await page.reload();
  await expect(words(page)).toHaveValue('');
  await words(page).fill('SAIL');
  await planned(page, 'SAIL');

  await page.locator('summary', { hasText: 'Ships' }).click();
  for (const bank of ['0', '90']) {
    await field(page, 'Bank while writing').fill(bank);
    await expect(page.getByText(/Must lie between 5 and 75.*The job keeps 45/)).toBeVisible();
  }
  await field(page, 'Bank while writing').fill('45');
  await field(page, 'Smoke oil carried').fill('0');
  await expect(page.getByText('The tank is entered as empty.')).toBeVisible();
  await expect(page.locator('.plan-entries [data-check="oil-0"]')).toContainText('Against it');
  await field(page, 'Letter height').fill('800');
  await expect(page.getByText(/At 800 ft the S is too small to fly/)).toBeVisible();
  await expect(page.getByText(/kt true airspeed or less/)).toBeVisible();
  // What stands on the screen is of the plan before: the chosen hand has no price at this size, and the others are tried at it.
  await expect(page.locator('.plan-strip')).toContainText('pictures and figures are of the last plan');
  await expect(page.locator('.hand-price')).toHaveText(Array.from({ length: 4 }, () => 'cannot be flown like this'));
});

test('a pasted bulletin is read or faulted by line and column, and sets the layer\u2019s wind', async ({ page }) => {
  await openPlan(page);
  await page.locator('summary', { hasText: 'Winds aloft' }).click();
  const bulletin = page.getByLabel(/Bulletin, pasted/);
  const text =
    'DATA BASED ON 190600Z\nVALID 191800Z FOR USE 1400-2100Z. TEMPS NEG ABV 24000\nFT  3000    6000    9000   12000   18000\nODN      2715+10 2720+04 3630-02 3640-15';
  await bulletin.fill(text.replace('2720+04', '9920+04'));
  await expect(page.getByText(/Not read: line 4, column 18/)).toBeVisible();
  await expect(page.getByLabel('Row 1, height in feet')).toHaveValue('3000');
  await bulletin.fill(text);
  await expect(page.getByText(/the read time lies in it/)).toBeVisible();
  await page.getByRole('button', { name: /Take ODN/ }).click();
  // Halfway from 270 at 20 kt to 360 at 30 kt the components mix, not the angles.
  await expect(page.locator('[data-figure="layer-wind"]')).toContainText('from 326\u00b0 true at 18 kt');
});

test('the plan plays, drawing only while it plays, and as stills where motion is to be reduced', async ({ page }) => {
  await page.addInitScript(() => {
    const real = requestAnimationFrame.bind(globalThis);
    Object.assign(globalThis, { framesAsked: 0 });
    globalThis.requestAnimationFrame = (call) => {
      (globalThis as unknown as { framesAsked: number }).framesAsked += 1;
      return real(call);
    };
  });
  const asked = () => page.evaluate(() => (globalThis as unknown as { framesAsked: number }).framesAsked);
  await openPlan(page);
  await page.waitForTimeout(500);
  const idle = await asked();
  await page.waitForTimeout(700);
  expect(await asked()).toBe(idle);
  const time = page.locator('.player .player-time');
  await page.locator('.player').getByRole('button', { name: 'Play' }).click();
  await expect(page.locator('.aircraft')).toHaveCount(2);
  await expect.poll(async () => (await time.textContent())?.startsWith('0:0')).toBe(false);
  expect(await asked()).toBeGreaterThan(idle + 5);
  await page.getByRole('button', { name: 'Pause' }).click();
  const paused = await asked();
  const stood = await time.textContent();
  await page.waitForTimeout(500);
  expect(await asked()).toBeLessThanOrEqual(paused + 1);
  expect(await time.textContent()).toBe(stood);

  await page.emulateMedia({ reducedMotion: 'reduce' });
  const before = await asked();
  await page.getByRole('button', { name: 'Play' }).click();
  await expect(time).not.toHaveText(stood ?? '');
  expect(await asked()).toBeLessThanOrEqual(before + 3);
});

test('two plans stand side by side with what differs', async ({ page }) => {
  await openPlan(page);
  const a = await figure(page, 'duration-seconds');
  await page.getByRole('button', { name: /Keep this plan as A/ }).click();
  await page.locator('summary', { hasText: 'Ships' }).click();
  await field(page, 'Bank between strokes').fill('30');
  await expect.poll(() => figure(page, 'duration-seconds')).toBeGreaterThan(a);
  const comparison = page.getByRole('region', { name: 'Two plans compared' });
  await expect(comparison.locator('.letter-picture svg')).toHaveCount(2);
  await expect(comparison).toContainText('ship 1, bank between strokes, \u00b0: 45 to 30');
  await expect(comparison.getByRole('row', { name: /First smoke to last/ })).toContainText('+');
  await comparison.getByRole('button', { name: 'Go back to A' }).click();
  await expect.poll(() => figure(page, 'duration-seconds')).toBeCloseTo(a, 6);
});

test('every picture opens without a fault; a cell of the day and a layer go into the plan', async ({ page }) => {
  await openPlan(page);
  for (const pane of ['In the sky', 'Over the ground', 'The day', 'Layers', 'Go or no-go', 'As flown']) {
    await page.getByRole('radio', { name: pane, exact: true }).check();
    await page.waitForTimeout(200);
  }
  await page.getByRole('radio', { name: 'The day', exact: true }).check();
  await page.locator('.day-view .day-best-cells button').first().click({ timeout: 20_000 });
  await expect(page.locator('.fold-said', { hasText: 'facing' })).not.toContainText('facing 340');
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(page.locator('.fold-said', { hasText: 'facing' })).toContainText('facing 340');
  await page.getByRole('radio', { name: 'Layers', exact: true }).check();
  await page.getByRole('button', { name: '12,000 ft' }).click();
  await expect(page.locator('.fold-said', { hasText: 'facing' })).toContainText('12,000 ft');
  await page.getByRole('radio', { name: 'Go or no-go', exact: true }).check();
  await page.getByRole('radio', { name: 'None', exact: true }).check();
  await expect(page.locator('.checks-view [data-check="cloud"]')).toHaveAttribute('data-status', 'ok');
  await expect(page.locator('.checks-view')).not.toContainText(/\bsafe\b/i);
  // Through haze the plan is the same and reads for less: the chosen hand says so as well.
  const price = page.locator('.hand[data-hand="round-capitals"] .hand-price');
  const clear = await price.innerText();
  await page.getByRole('textbox', { name: /^Visibility/ }).fill('10 km');
  await expect(price).not.toHaveText(clear);
  await expect(price).toContainText('reads for 0 to');
  await expect(page.locator('[data-save]')).toHaveAttribute('data-save', 'saved');
  await page.reload();
  await page.getByRole('radio', { name: 'Go or no-go', exact: true }).check();
  await expect(page.locator('.checks-view [data-check="cloud"]')).toHaveAttribute('data-status', 'ok');
});

test('the sky shows smoke where the text is, and none before the first smoke', async ({ page }) => {
  await openPlan(page);
  await page.getByRole('radio', { name: 'In the sky', exact: true }).check();
  const canvas = page.locator('.sky-picture canvas');
  await expect(canvas).toBeVisible();
  const brightest = () =>
    canvas.evaluate((element) => {
      const drawn = element as HTMLCanvasElement;
      const { data } = drawn.getContext('2d')?.getImageData(0, 0, drawn.width, Math.floor(drawn.height * 0.4)) ?? { data: [] };
      let most = 0;
      for (let index = 0; index < data.length; index += 4) most = Math.max(most, data[index] ?? 0);
      return most;
    });
  const written = await brightest();
  await page.locator('.sky-track input').fill('0');
  await expect.poll(brightest).toBeLessThan(written - 30);
});

test('the plan is given away as a film', async ({ page }) => {
  await openPlan(page);
  await page.getByRole('radio', { name: 'In the sky', exact: true }).check();
  const given = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Film of the plan' }).click();
  await expect(page.getByText(/^Filming: \d+ %$/)).toBeVisible();
  const film = await given;
  expect(film.suggestedFilename()).toMatch(/^lake-ondine-regatta-demo-as-planned\.(webm|mp4|zip)$/);
  const bytes = readFileSync(await film.path());
  // The head of a WebM file (EBML, RFC 8794), and more than a still picture holds.
  if (film.suggestedFilename().endsWith('.webm')) expect(bytes.subarray(0, 4).toString('hex')).toBe('1a45dfa3');
  expect(bytes.length).toBeGreaterThan(200_000);
  await expect(page.getByRole('button', { name: 'Film of the plan' })).toBeEnabled();
});
