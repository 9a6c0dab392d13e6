import { expect, type Page, test } from '@playwright/test';
import { accessibilityFindings } from './accessibility-findings.ts';
import { contrasts } from './write-contrast.ts';
import { beginDeviceFlight, EIGHT_MILLIMETRES, flyUntil, meanwhile, openStartPanel, SIZES, TWENTY_MILLIMETRES } from './write-flight.ts';

/** Set QUILLWIND_PICTURES to have every moment at every size as a picture among the results: a hundred, a minute more. */
const PICTURES = process.env['QUILLWIND_PICTURES'] !== undefined;

interface Box {
  readonly name: string;
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** The parts of the cue screen that are in sight. */
function parts(page: Page): Promise<Box[]> {
  return page.evaluate(() => {
    const selectors = [
      '.write-title',
      '.write-heading .figures-drawn',
      '.write-turn-block',
      '.write-straight',
      '.write-line',
      '.write-smoke',
      '.write-notice',
      '.write-countdown .figures-drawn',
      ...[0, 1, 2, 3].map((index) => `.write-touch:nth-of-type(${index + 1})`),
    ];
    return selectors.flatMap((name) =>
      [...document.querySelectorAll(name)]
        .filter((element) => element.checkVisibility({ visibilityProperty: true }) && element.getBoundingClientRect().height > 0)
        .map((element) => {
          const { left, top, right, bottom } = element.getBoundingClientRect();
          return { name, left, top, right, bottom };
        }),
    );
  });
}

const gap = (one: Box, other: Box): number => Math.max(one.left - other.right, other.left - one.right, one.top - other.bottom, other.top - one.bottom);

async function checkLook(page: Page, size: { readonly width: number; readonly height: number }, what: string): Promise<void> {
  const boxes = await parts(page);
  for (const { name, left, top, right, bottom } of boxes) {
    const inside = left >= -0.5 && top >= -0.5 && right <= size.width + 0.5 && bottom <= size.height + 0.5;
    expect(inside, `${what}: ${name} at ${[left, top, right, bottom].map(Math.round).join()} is within ${size.width} x ${size.height}`).toBe(true);
  }
  const apart = boxes.filter(({ name }) => name !== '.write-countdown .figures-drawn');
  for (const [index, one] of apart.entries()) {
    for (const other of apart.slice(index + 1)) expect(gap(one, other), `${what}: ${one.name} and ${other.name} stand apart`).toBeGreaterThanOrEqual(-0.5);
  }
  const touches = await page.locator('.write button:visible, .write a:visible, .write input:visible, .write select:visible').evaluateAll((elements) =>
    elements.map((element) => {
      const { left, top, right, bottom } = element.getBoundingClientRect();
      return { name: element.textContent ?? '', left, top, right, bottom };
    }),
  );
  expect(touches.length, what).toBeLessThanOrEqual(4);
  for (const touch of touches) {
    expect(touch.right - touch.left, `${what}: ${touch.name} is 20 mm wide`).toBeGreaterThanOrEqual(TWENTY_MILLIMETRES);
    expect(touch.bottom - touch.top, `${what}: ${touch.name} is 20 mm high`).toBeGreaterThanOrEqual(TWENTY_MILLIMETRES);
  }
  for (const [index, one] of touches.entries()) {
    for (const other of touches.slice(index + 1))
      expect(gap(one, other), `${what}: 8 mm between ${one.name} and ${other.name}`).toBeGreaterThanOrEqual(EIGHT_MILLIMETRES);
  }
  const figures = await page.locator('.write-heading .figures-drawn path').evaluateAll((paths) =>
    paths.map((path) => {
      const drawn = path as SVGPathElement;
      const scale = drawn.ownerSVGElement!.getBoundingClientRect().height / drawn.ownerSVGElement!.viewBox.baseVal.height;
      return (drawn.getBBox().height + Number.parseFloat(getComputedStyle(drawn).strokeWidth)) * scale;
    }),
  );
  if (await page.locator('.write-heading').isVisible()) {
    expect(figures, `${what}: three figures`).toHaveLength(3);
    for (const height of figures) expect(height, `${what}: a figure's own height`).toBeGreaterThanOrEqual(TWENTY_MILLIMETRES);
  }
}

type Cues = Readonly<Record<string, string>>;

/** What a flight is looked at in, each once, in whatever order it comes. */
const MOMENTS: Readonly<Record<string, (cues: Cues) => boolean>> = {
  'left turn': ({ phase, turn }) => phase === 'reposition' && turn === 'left',
  'right turn': ({ phase, turn }) => phase === 'reposition' && turn === 'right',
  straight: ({ phase, turn }) => phase === 'reposition' && turn === 'straight',
  'run-in': ({ phase, 'smoke-in': smokeIn }) => phase === 'run-in' && Number(smokeIn) > 3.6,
  'last seconds': ({ phase, 'smoke-in': smokeIn }) => phase === 'run-in' && Number(smokeIn) < 3.4,
  stroke: ({ phase, turn }) => phase === 'stroke' && turn === 'straight',
  'turn in smoke': ({ phase, turn }) => phase === 'stroke' && turn !== 'straight',
};

test('shows the same flight at every size, by day and by night: large, apart, 7:1 and accessible', async ({ page }, info) => {
  test.setTimeout(480_000);
  await page.setViewportSize(SIZES[0]);
  await beginDeviceFlight(page, 'SKY');
  const worst = { what: '', ratio: Infinity };

  const lookAt = async (moment: string): Promise<void> => {
    for (const size of SIZES) {
      await page.setViewportSize(size);
      // A tick later, so that the drawing has been measured anew.
      await page.clock.runFor(100);
      await checkLook(page, size, `${moment} at ${size.width} x ${size.height}`);
      for (const appearance of ['day', 'night'] as const) {
        await page.evaluate((wanted) => (document.documentElement.dataset['appearance'] = wanted), appearance);
        const what = `${moment} at ${size.width} x ${size.height} by ${appearance}`;
        if (PICTURES) await page.screenshot({ path: info.outputPath(`${moment.replaceAll(' ', '-')}-${size.width}x${size.height}-${appearance}.png`) });
        // Colours do not depend on the size, only on what a narrow screen leaves out.
        if (size !== SIZES[0]) continue;
        const found = await contrasts(page, '.write');
        expect(found.length, `${what}: words and lines in sight`).toBeGreaterThan(8);
        for (const { what: words, ratio } of found) {
          if (ratio < worst.ratio) Object.assign(worst, { what: `${words}, ${what}`, ratio });
          expect(ratio, `${what}: ${words}`).toBeGreaterThanOrEqual(7);
        }
      }
    }
    await page.setViewportSize(SIZES[0]);
    // axe waits by timers of its own.
    expect(await meanwhile(page, accessibilityFindings(page, '.write', ['best-practice'])), moment).toEqual([]);
  };

  const pending = new Map(Object.entries(MOMENTS));
  while (pending.size > 0) {
    const matches = (cues: Cues): string | undefined => [...pending].find(([, isNow]) => isNow(cues))?.[0];
    const cues = await flyUntil(page, (now) => matches(now) !== undefined || now['phase'] === 'finished');
    const moment = matches(cues);
    expect(moment, `still to be seen: ${[...pending.keys()].join(', ')}`).toBeDefined();
    pending.delete(moment!);
    await lookAt(moment!);
  }

  await page.evaluate(() => {
    Object.defineProperty(document, 'visibilityState', { value: 'hidden', configurable: true });
    document.dispatchEvent(new Event('visibilitychange'));
  });
  await flyUntil(page, ({ phase }) => phase === 'no-cue', 10);
  await lookAt('no cue');
  await page.evaluate(() => {
    Object.defineProperty(document, 'visibilityState', { value: 'visible', configurable: true });
    document.dispatchEvent(new Event('visibilitychange'));
  });
  await flyUntil(page, ({ phase }) => phase !== 'no-cue', 10);
  await page.getByRole('button', { name: /^HOLD/ }).click();
  await flyUntil(page, ({ phase }) => phase === 'hold', 2);
  await lookAt('hold');
  await page.getByRole('button', { name: /^GO ON/ }).click();
  await page.getByRole('button', { name: /^KNOCK/ }).focus();
  await page.keyboard.down('Enter');
  await flyUntil(page, ({ phase }) => phase === 'finished', 2);
  await page.keyboard.up('Enter');
  await lookAt('finished');
  process.stdout.write(`lowest contrast ${worst.ratio.toFixed(2)}: ${worst.what}\n`);
});

for (const appearance of ['day', 'night'] as const) {
  test(`the start panel is accessible and fits by ${appearance}`, async ({ page }, info) => {
    await page.emulateMedia({ colorScheme: appearance === 'day' ? 'light' : 'dark' });
    await openStartPanel(page);
    for (const size of SIZES) {
      await page.setViewportSize(size);
      // The drawing follows its element a moment later.
      await expect.poll(() => page.evaluate(() => document.documentElement.scrollWidth), { message: `${size.width} px wide` }).toBeLessThanOrEqual(size.width);
      await page.screenshot({ path: info.outputPath(`start-${size.width}x${size.height}-${appearance}.png`), fullPage: true });
    }
    for (const { what, ratio } of await contrasts(page, '.write-ground')) expect(ratio, what).toBeGreaterThanOrEqual(7);
    expect(await accessibilityFindings(page, '.write-ground', ['best-practice'])).toEqual([]);
  });
}
