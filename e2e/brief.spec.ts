import { expect, test } from '@playwright/test';
import { DEMO_JOB, DEMO_JOB_ID } from '../src/core/formats/demo-job.ts';
import { openJobs } from './stored-jobs.ts';

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
    await page.getByLabel(/white on black/).check();
    await expect(card).toHaveClass(/night/);
    const pdf = await page.pdf({ preferCSSPageSize: true, printBackground: true });
    expect(pagesOf(pdf)).toBe(1);
    const [, , width, height] = boxesOf(pdf)[0]!;
    expect(width).toBeCloseTo((148 / 25.4) * 72, -0.5);
    expect(height).toBeCloseTo((210 / 25.4) * 72, -0.5);
  });

  test('prints one A4 page for the controller, with times, heights, circle and polygons', async ({ page }) => {
    await page.getByRole('button', { name: 'Controller' }).click();
    const notice = page.getByRole('article', { name: 'Notice for the controller' });
    await expect(notice).toContainText('10,000 to 11,000 ft');
    await expect(notice).toContainText(/\d\d:\d\d:\d\d UTC \(\d\d:\d\d local\)/);
    expect(await notice.locator('.polygons li').count()).toBeGreaterThan(7);
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
