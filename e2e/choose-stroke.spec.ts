import { expect, test } from '@playwright/test';
import { accessibilityFindings } from './accessibility-findings.ts';
import { beginDeviceFlight, EIGHT_MILLIMETRES, flyUntil, meanwhile, shownCues, SIZES, TWENTY_MILLIMETRES } from './write-flight.ts';

const PICTURES = process.env['QUILLWIND_PICTURES'] !== undefined;

test('another stroke comes next by a touch on the word: its seconds are told first, it is led to off smoke, and one touch takes it back', async ({
  page,
}, info) => {
  test.setTimeout(180_000);
  await page.setViewportSize(SIZES[0]);
  await beginDeviceFlight(page, 'SAIL');
  const word = page.locator('[data-cue="letter"]');
  const chooser = page.getByRole('group', { name: 'Which stroke comes next' });
  const take = chooser.getByRole('button').nth(2);
  /** The worker answers by the room's clock, the flight ticks by the page's. */
  const known = async (): Promise<void> => {
    for (let tries = 0; tries < 50 && (await chooser.getByRole('button', { disabled: false }).count()) === 0; tries += 1) {
      await page.clock.runFor(100);
      await page.waitForTimeout(50);
    }
    await expect(take).toBeEnabled();
  };

  // Under smoke there is nothing to choose.
  await flyUntil(page, ({ phase }) => phase === 'stroke');
  await word.click();
  await page.clock.runFor(200);
  await expect(chooser).toHaveCount(0);

  const before = await flyUntil(page, ({ phase }) => phase === 'reposition');
  await word.click();
  await known();
  await expect(take).toContainText('stays next');
  await chooser.getByRole('button', { name: /stroke after/ }).click();
  await page.clock.runFor(100);
  await expect(take).toContainText(/next, (\d+\ss\s(more|less)|same time)/);
  const chosen = (await take.textContent())!;
  expect((await shownCues(page)).stroke).toBe(before['stroke']);

  for (const size of SIZES) {
    await page.setViewportSize(size);
    await page.clock.runFor(100);
    const boxes = await Promise.all(
      [...(await chooser.getByRole('button').all()), page.getByRole('button', { name: /^KNOCK/ })].map(async (button) => (await button.boundingBox())!),
    );
    const what = `${size.width} x ${size.height}`;
    for (const [index, box] of boxes.entries()) {
      expect(Math.min(box.width, box.height), `${what}: touch ${index} is for a glove`).toBeGreaterThanOrEqual(TWENTY_MILLIMETRES);
      for (const other of boxes.slice(index + 1)) {
        const apart = Math.max(box.x - other.x - other.width, other.x - box.x - box.width, box.y - other.y - other.height, other.y - box.y - box.height);
        expect(apart, `${what}: touches stand apart`).toBeGreaterThanOrEqual(EIGHT_MILLIMETRES - 0.5);
      }
    }
    // What is flown meanwhile stays in sight.
    for (const part of ['.write-title', '.write-heading .figures-drawn >> nth=0', '.write-smoke']) await expect(page.locator(part), what).toBeInViewport();
    const target = await word.evaluate((element) => {
      const { width, height } = getComputedStyle(element, '::after');
      return Math.min(Number.parseFloat(width), Number.parseFloat(height));
    });
    expect(target, `${what}: the word is for a glove`).toBeGreaterThanOrEqual(TWENTY_MILLIMETRES);
    if (!PICTURES) continue;
    for (const appearance of ['day', 'night'] as const) {
      await page.evaluate((wanted) => (document.documentElement.dataset['appearance'] = wanted), appearance);
      await page.screenshot({ path: info.outputPath(`choose-${size.width}x${size.height}-${appearance}.png`) });
    }
  }
  await page.setViewportSize(SIZES[0]);
  expect(await meanwhile(page, accessibilityFindings(page, '.write', ['best-practice']))).toEqual([]);

  // The ship flew on a little: the choice is the same, its seconds may not be.
  await known();
  const [letter, number] = chosen.split('next')[0]!.split(' ');
  await expect(take).toContainText(`${letter} ${number}`);
  await take.click();
  await page.clock.runFor(1500);
  await expect(chooser).toHaveCount(0);
  const after = await shownCues(page);
  expect(after['stroke']).toBe(`${number}/${before['stroke']!.split('/')[1]}`);
  expect(after).toMatchObject({ letter, smoke: 'off' });
  await page.getByRole('button', { name: /^UNDO choice/ }).click();
  await page.clock.runFor(200);
  expect((await shownCues(page)).stroke).toBe(before['stroke']);

  // Once more, by a touch on the drawing; then it is written.
  await flyUntil(page, ({ phase }) => phase === 'stroke');
  await flyUntil(page, ({ phase }) => phase === 'reposition');
  await word.click();
  await known();
  const drawn = (await page.locator('.write-chooser-picture svg').boundingBox())!;
  await page.mouse.click(drawn.x + drawn.width * 0.96, drawn.y + drawn.height * 0.5);
  await page.clock.runFor(100);
  await expect(take).toContainText(/^L \d+next/);
  await take.click();
  await flyUntil(page, ({ phase }) => phase === 'stroke');
  expect((await shownCues(page)).letter).toBe('L');
  await expect(page.getByRole('button', { name: /^UNDO/ })).toHaveCount(0);

  // While it holds as well: the notice gives way to the word, and the chosen stroke is led to when the hold ends.
  await page.getByRole('button', { name: /^HOLD/ }).click();
  await flyUntil(page, ({ phase }) => phase === 'hold');
  // By a keyboard as well.
  await word.press('Enter');
  await known();
  await chooser.getByRole('button', { name: /stroke after/ }).press('Enter');
  await page.clock.runFor(100);
  for (const size of SIZES) {
    await page.setViewportSize(size);
    await page.clock.runFor(100);
    await expect(page.locator('.write-chooser-picture svg')).toBeInViewport();
    await expect(page.locator('.write-notice-title')).toBeHidden();
    if (PICTURES) await page.screenshot({ path: info.outputPath(`choose-hold-${size.width}x${size.height}.png`) });
  }
  await page.setViewportSize(SIZES[0]);
  await known();
  const held = (await take.textContent())!.split('next')[0]!.split(' ');
  await take.click();
  await page.clock.runFor(1500);
  await expect(chooser).toHaveCount(0);
  expect((await shownCues(page)).phase).toBe('hold');
  await page.getByRole('button', { name: /^GO ON/ }).click();
  await page.clock.runFor(300);
  expect((await shownCues(page)).stroke).toBe(`${held[1]}/${before['stroke']!.split('/')[1]}`);
});

test('a ship alone that misses its time hack reads and hears by how much, before the first smoke', async ({ page }) => {
  test.setTimeout(60_000);
  await page.setViewportSize({ width: 320, height: 640 });
  await beginDeviceFlight(page, 'HELLO', undefined, async () => {
    await page.getByRole('radio', { name: /Time hack/ }).check();
    await page.getByLabel('First smoke after the call').selectOption('60');
  });
  await flyUntil(page, ({ late: seconds, phase }) => Number(seconds) > 20 && phase === 'reposition', 120);
  await expect(page.locator('.write-fact-datum')).toContainText(/in \d+, \d+ s late/);
  await flyUntil(page, ({ said }) => /^\d+ late( \w+){2,3}$/.test(said ?? ''), 120);
  await page.screenshot({ path: test.info().outputPath('late-320x640.png') });
  const begun = await flyUntil(page, ({ phase }) => phase === 'stroke', 400);
  expect(Number(begun['late'])).toBeGreaterThan(20);
  await expect(page.locator('.write-fact-datum dd')).toBeEmpty();
});
