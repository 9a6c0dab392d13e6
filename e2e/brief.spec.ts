import { expect, type Page, test } from '@playwright/test';
import { DEMO_JOB } from '../src/core/job/demo-job.ts';
import { DEMO_JOB_ID } from '../src/core/job/demo-id.ts';
import type { Job } from '../src/core/job/job.ts';
import { writeJob } from '../src/core/job/write-job.ts';
import { openJobs, putRaw } from './stored-jobs.ts';

const pagesOf = (pdf: Buffer): number => [...pdf.toString('latin1').matchAll(/\/Type\s*\/Page[^s]/g)].length;
/** A5 and A4 in points, ISO 216: 148 x 210 mm and 210 x 297 mm. */
const boxesOf = (pdf: Buffer): number[][] =>
  [...pdf.toString('latin1').matchAll(/\/MediaBox\s*\[([^\]]+)\]/g)].map(([, box]) => box!.trim().split(/\s+/).map(Number));

test.describe('the Brief screen', () => {
  test.beforeEach(async ({ page }) => {
    await openJobs(page);
    await page.goto(`./#/brief/${DEMO_JOB_ID}`);
    await page.getByRole('article', { name: 'Card of Lead' }).waitFor();
  });

  test('prints a kneeboard card on one A5 page, its strokes numbered, its headings in three digits', async ({ page }) => {
    const card = page.getByRole('article', { name: 'Card of Lead' });
    const rows = card.getByRole('row');
    expect(await rows.count()).toBeGreaterThan(4);
    for (const heading of await card.locator('.steps strong').allTextContents()) expect(heading).toMatch(/^[0-3]\d\d$/);
    await expect(card).toContainText(DEMO_JOB.knockItOffWords);
    await expect(card).toContainText('122.750');
    // The pier's first smoke, from the point the demo job names.
    await expect(card).toContainText(/First\ssmoke\sat\s43°\s5\d\.\d\d′\sN\s074°\s2\d\.\d\d′\sW,\s\d{3}°M\s\d\.\d\sNM\sfrom\sOndine\sdam/);
    await page.getByLabel(/white on black/).check();
    await expect(card).toHaveClass(/night/);
    await page.emulateMedia({ media: 'print' });
    // Dark to the foot of the page.
    expect(((await card.boundingBox())!.height / 96) * 25.4).toBeCloseTo(210, 0);
    await page.emulateMedia({ media: null });
    const pdf = await page.pdf({ preferCSSPageSize: true, printBackground: true });
    expect(pagesOf(pdf)).toBe(1);
    const [, , width, height] = boxesOf(pdf)[0]!;
    expect(width).toBeCloseTo((148 / 25.4) * 72, -0.5);
    expect(height).toBeCloseTo((210 / 25.4) * 72, -0.5);
  });

  test.describe('of a longer text', () => {
    const REGATTA: Job = { ...DEMO_JOB, id: 'regatta', name: 'Regatta', text: 'REGATTA 7' };
    const FINALE: Job = { ...DEMO_JOB, id: 'finale', name: 'Finale', text: 'REGATTA FINALE' };
    const open = async (page: Page, job: Job): Promise<void> => {
      await putRaw(page, 'jobs', { id: job.id, name: job.name, savedAtMilliseconds: 1, fileText: writeJob(job) });
      await page.reload();
      await page.goto(`./#/brief/${job.id}`);
      await page.getByRole('article').first().waitFor();
    };
    /** The smallest type and the height of each page as laid out for the printer, in points and millimetres. */
    const printed = async (page: Page): Promise<readonly { readonly points: number; readonly millimetres: number; readonly overflow: number }[]> => {
      await page.emulateMedia({ media: 'print' });
      const found = await page.locator('article.card').evaluateAll((cards) =>
        cards.map((card) => {
          const texts = [...card.querySelectorAll('*')].filter(
            (each) =>
              !(each instanceof SVGElement) &&
              !each.closest('.visually-hidden') &&
              [...each.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.textContent?.trim() !== ''),
          );
          const pixels = Math.min(...texts.map((each) => Number.parseFloat(getComputedStyle(each).fontSize)));
          return { points: (pixels * 72) / 96, millimetres: (card.getBoundingClientRect().height / 96) * 25.4, overflow: card.scrollWidth - card.clientWidth };
        }),
      );
      await page.emulateMedia({ media: null });
      return found;
    };

    test('is set in 11 points and more, the largest that fits one A5 page', async ({ page }) => {
      const [short, ...more] = await printed(page);
      expect(more).toEqual([]);
      expect(short!.points).toBeGreaterThanOrEqual(11 - 1e-6);
      expect(short!.millimetres).toBeLessThanOrEqual(210);
      expect(short!.overflow).toBe(0);
      // The paper is used: the next half point would not fit.
      expect(short!.millimetres).toBeGreaterThan(185);

      await open(page, REGATTA);
      const long = await printed(page);
      expect(long.length).toBeGreaterThan(1);
      for (const { points, millimetres, overflow } of long) {
        expect(points).toBeGreaterThanOrEqual(11 - 1e-6);
        expect(millimetres).toBeLessThanOrEqual(210);
        expect(overflow).toBe(0);
      }
      expect(pagesOf(await page.pdf({ preferCSSPageSize: true, printBackground: true }))).toBe(long.length);
    });

    test('goes on overleaf, saying which page it is, with every stroke once and the words for stopping on both', async ({ page }) => {
      await open(page, FINALE);
      const cards = page.locator('article.card');
      const count = await cards.count();
      expect(count).toBeGreaterThan(1);
      for (let index = 0; index < count; index += 1) {
        await expect(cards.nth(index)).toContainText(`${index + 1}/${count}`);
        await expect(cards.nth(index)).toContainText(DEMO_JOB.knockItOffWords);
      }
      const numbers = await cards.locator('.steps tbody th').allTextContents();
      expect(numbers).toEqual(numbers.map((_, index) => String(index + 1)));
      // The words of wind and north stand clear of the strokes' numbers.
      const [numbered, said] = await Promise.all(
        ['.stroke-numbers .number', '.plain-arrow text'].map((where) =>
          cards
            .nth(0)
            .locator(where)
            .evaluateAll((marks) => marks.map((mark) => mark.getBoundingClientRect()).map(({ left, right, top, bottom }) => ({ left, right, top, bottom }))),
        ),
      );
      expect(said).toHaveLength(2);
      for (const word of said!)
        for (const mark of numbered!) expect(mark.left < word.right && word.left < mark.right && mark.top < word.bottom && word.top < mark.bottom).toBe(false);
      for (const { points, millimetres } of await printed(page)) {
        expect(points).toBeGreaterThanOrEqual(11 - 1e-6);
        expect(millimetres).toBeLessThanOrEqual(210);
      }
      expect(pagesOf(await page.pdf({ preferCSSPageSize: true, printBackground: true }))).toBe(count);
    });
  });

  test('prints one A4 page for the controller, with times, heights, circle and polygons', async ({ page }) => {
    await page.getByRole('button', { name: 'Controller' }).click();
    const notice = page.getByRole('article', { name: 'Notice for the controller' });
    await expect(notice).toContainText('10,000 to 11,000 ft');
    await expect(notice).toContainText(/\d\d:\d\d:\d\d UTC \(\d\d:\d\d EDT\)/);
    expect(await notice.locator('.polygons li').count()).toBeGreaterThan(7);
    // As long as it may be read at the longest, the smoke is the controller's matter.
    await expect(notice).toContainText(/Smoke, drifting until about 18:0\d:\d\d UTC/);
    const pdf = await page.pdf({ preferCSSPageSize: true });
    expect(pagesOf(pdf)).toBe(1);
    expect(boxesOf(pdf)[0]![2]).toBeCloseTo((210 / 25.4) * 72, -0.5);
  });

  test('prints one page for the client, with the picture and where to look', async ({ page }) => {
    await page.getByRole('button', { name: 'Client' }).click();
    const sheet = page.getByRole('article', { name: 'Sheet for the client' });
    await expect(sheet.getByRole('img')).toBeVisible();
    await expect(sheet).toContainText(/to the north \(3[34]\d°\), 3[3-6]° up/);
    expect(pagesOf(await page.pdf({ preferCSSPageSize: true }))).toBe(1);
  });
});

test('the main button keeps its colours under the pointer, by day and by night', async ({ page }) => {
  await openJobs(page);
  await page.goto(`./#/brief/${DEMO_JOB_ID}`);
  const print = page.getByRole('button', { name: 'Print' });
  await expect(print).toBeEnabled({ timeout: 30_000 });
  const ground = (): Promise<string> => print.evaluate((button) => getComputedStyle(button).backgroundColor);
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    await page.mouse.move(0, 0);
    const before = await ground();
    await print.hover();
    expect(await ground()).toBe(before);
  }
});
