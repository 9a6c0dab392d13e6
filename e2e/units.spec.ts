import { expect, type Page, test } from '@playwright/test';
import { openJobs } from './stored-jobs.ts';

/** Latitude and longitude of the first smoke, as Over the ground has it. */
async function firstSmoke(page: Page): Promise<readonly [number, number]> {
  await page.getByRole('radio', { name: 'Over the ground', exact: true }).check();
  const value = (await page.locator('[data-figure="first-smoke"]').getAttribute('data-value')) ?? '';
  const [latitude = Number.NaN, longitude = Number.NaN] = value.split(',').map(Number);
  return [latitude, longitude];
}

test('the demo\u2019s day typed in metres, kilometres an hour, kilograms and litres with a decimal comma is the same plan to the metre', async ({ page }) => {
  await openJobs(page);
  await page.getByRole('link', { name: 'Draw', exact: true }).first().click();
  await page.locator('.plan-entries').waitFor();
  await expect(page.locator('.plan-strip[data-state="planned"]')).toBeVisible();
  const before = await firstSmoke(page);
  await page.locator('summary', { hasText: /^Where and when/ }).click();
  await page.locator('summary', { hasText: /^Ships/ }).click();
  const unit = (label: string, now: string) => page.getByRole('button', { name: `${label}: unit ${now}, another` });
  await unit('Layer, above sea level', 'ft').click();
  await unit('True airspeed', 'kt').click();
  await unit('Smoke oil carried', 'lb').click();
  await unit('Fuel carried', 'gal').click();
  // Chosen once for the kind: letters are in metres now, too.
  await expect(unit('Letter height', 'm')).toBeVisible();
  await expect(unit('Smoke oil burnt', 'kg/min')).toBeVisible();
  for (const [label, typed] of [
    ['Layer, above sea level', '3200,4'],
    ['Letter height', '1199,998'],
    ['True airspeed', '193,1636'],
    ['Smoke oil carried', '181,4369'],
    ['Smoke oil burnt', '20,41166'],
    ['Fuel carried', '151,4165'],
    ['Fuel burnt', '52,99576'],
  ] as const) {
    const entry = page.locator('.plan-entries').getByLabel(label, { exact: true });
    await entry.fill(typed);
    await entry.blur();
    const asked = page.getByRole('group', { name: 'Which is meant?' });
    if ((await asked.count()) > 0) await asked.getByRole('button').last().click();
  }
  await expect(page.locator('[data-save="saved"]')).toBeVisible();
  await expect(page.locator('.plan-strip[data-state="planned"]')).toBeVisible();
  await page.waitForTimeout(1500);
  const after = await firstSmoke(page);
  expect(Math.abs(after[0] - before[0]) * 111_320).toBeLessThan(1);
  expect(Math.abs(after[1] - before[1]) * 80_000).toBeLessThan(1);
  // The choice outlives the page.
  await page.reload();
  await page.locator('summary', { hasText: /^Where and when/ }).click();
  await expect(unit('Layer, above sea level', 'm')).toBeVisible();
});
