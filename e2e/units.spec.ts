import { expect, type Page, test } from '@playwright/test';
import { openJobs } from './stored-jobs.ts';

/** Latitude and longitude of the first smoke, as Over the ground has it. */
async function firstSmoke(page: Page): Promise<readonly [number, number]> {
  await page.getByRole('radio', { name: 'Over the ground', exact: true }).check();
  const value = (await page.locator('[data-figure="first-smoke"]').getAttribute('data-value')) ?? '';
  const [latitude = Number.NaN, longitude = Number.NaN] = value.split(',').map(Number);
  return [latitude, longitude];
}

const SHEETS = ['Kneeboard cards', 'Controller', 'Client', 'Day and radio'] as const;

/** The words of every sheet as they go to the printer, without the cautions, which quote their rules. */
async function printedSheets(page: Page): Promise<Record<(typeof SHEETS)[number], string>> {
  await page.getByRole('link', { name: 'Brief', exact: true }).click();
  const found: Partial<Record<(typeof SHEETS)[number], string>> = {};
  for (const name of SHEETS) {
    await page.getByRole('button', { name, exact: true }).click();
    await page.emulateMedia({ media: 'print' });
    const sheet = page.locator('article.sheet').first();
    await sheet.waitFor();
    found[name] = await sheet.evaluate((element) => {
      const copy = element.cloneNode(true) as HTMLElement;
      for (const cautions of copy.querySelectorAll('ul.small')) cautions.remove();
      return (copy.textContent ?? '').replace(/[ \n\u00a0]+/g, ' ');
    });
    await page.emulateMedia({ media: 'screen' });
  }
  await page.getByRole('link', { name: 'Draw', exact: true }).click();
  return found as Record<(typeof SHEETS)[number], string>;
}

/** Every position and every hour of a sheet, in their order. */
const placesAndHours = (text: string): string[] => text.match(/\d{2,3}\u00b0\s\d\d\.\d\d\u2032\s[NSEW]|\d\d:\d\d(?::\d\d)? [A-Z]{3}/g) ?? [];

/** A value in a unit that was not chosen. */
const LEFT = /\d (?:ft|kt|lb|gal|NM|statute mi|miles|feet|knots|\u00b0F)\b/;

test.use({ locale: 'fr-FR' });

test('the demo\u2019s day typed in metres, kilometres an hour, kilograms and litres with a decimal comma is the same plan to the metre, to the printed sheets', async ({
  page,
}) => {
  await openJobs(page);
  await page.getByRole('link', { name: 'Draw', exact: true }).first().click();
  await page.locator('.plan-entries').waitFor();
  await expect(page.locator('.plan-strip[data-state="planned"]')).toBeVisible();
  const before = await firstSmoke(page);
  const own = await printedSheets(page);
  await page.locator('.plan-entries').waitFor();
  for (const section of [/^Where and when/, /^Ships/, /^Units/, /^Winds/]) await page.locator('summary', { hasText: section }).click();
  const unit = (label: string, now: string) => page.getByRole('button', { name: `${label}: unit ${now}, another` });
  await unit('Layer, above sea level', 'ft').click();
  await unit('True airspeed', 'kt').click();
  await unit('Smoke oil carried', 'lb').click();
  await unit('Fuel carried', 'gal').click();
  await page.getByLabel(/^Distances/).selectOption('km');
  await page.getByLabel(/^Pressures/).selectOption('inHg');
  // Chosen once for the kind: letters are in metres now, too.
  await expect(unit('Letter height', 'm')).toBeVisible();
  await expect(unit('Smoke oil burnt', 'kg/min')).toBeVisible();
  const type = async (label: string, typed: string): Promise<void> => {
    const entry = page.locator('.plan-entries').getByLabel(label, { exact: true });
    await entry.fill(typed);
    await entry.blur();
    const asked = page.getByRole('group', { name: 'Which is meant?' });
    if ((await asked.count()) > 0) await asked.getByRole('button').last().click();
  };
  for (const [label, typed] of [
    ['Layer, above sea level', '3200,4'],
    ['Letter height', '1199,998'],
    ['True airspeed', '193,1636'],
    ['Smoke oil carried', '181,4369'],
    ['Smoke oil burnt', '20,41166'],
    ['Fuel carried', '151,4165'],
    ['Fuel burnt', '52,99576'],
    ['Elevation, m', '499,872'],
    ['Altimeter setting, QNH, inHg; empty not said', '30,01'],
  ] as const)
    await type(label, typed);
  // Every wind row as it stands, typed once more with its comma.
  const rows = await page.getByLabel(/^Row \d+, (height in m|speed in km\/h)$/).count();
  expect(rows).toBeGreaterThan(3);
  for (const cell of await page.getByLabel(/^Row \d+, (height in m|speed in km\/h)$/).all()) {
    const shown = await cell.inputValue();
    await cell.fill(shown.replace('.', ','));
    await cell.blur();
    const asked = page.getByRole('group', { name: 'Which is meant?' });
    if ((await asked.count()) > 0) await asked.getByRole('button').last().click();
  }
  await expect(page.locator('[data-save="saved"]')).toBeVisible();
  await expect(page.locator('.plan-strip[data-state="planned"]')).toBeVisible();
  await page.waitForTimeout(1500);
  const after = await firstSmoke(page);
  expect(Math.abs(after[0] - before[0]) * 111_320).toBeLessThan(1);
  expect(Math.abs(after[1] - before[1]) * 80_000).toBeLessThan(1);
  await expect(page.locator('.plan-strip')).toContainText(/\d km/);
  await expect(page.locator('.plan-strip')).toContainText(/\d+ of 181 kg/);
  // The altimeter says what a pilot sets and reads, in the units chosen.
  await expect(page.locator('[data-altimeter]').first()).toHaveAttribute(
    'data-altimeter',
    /^QNH 30,01 inHg shows 3\u202f\d{3} m; 29,92 inHg shows flight level 1\d\d; QFE 28,\d\d inHg shows 2\u202f\d{3} m$/,
  );
  const metric = await printedSheets(page);
  for (const sheet of SHEETS) {
    expect(own[sheet], sheet).toMatch(LEFT);
    expect(metric[sheet], sheet).not.toMatch(LEFT);
    // The same places at the same hours, to the sheet's last figure.
    expect(placesAndHours(metric[sheet]), sheet).toEqual(placesAndHours(own[sheet]));
  }
  expect(placesAndHours(own.Controller).length).toBeGreaterThan(20);
  expect(metric['Kneeboard cards']).toMatch(/3\u202f200 m \u00b7 193 km\/h true, \d+ calibrated/);
  expect(metric['Kneeboard cards']).toMatch(/Altimeter: QNH 30,01 inHg/);
  expect(metric['Kneeboard cards']).toMatch(/of 181 kg/);
  expect(metric.Controller).toMatch(/3\u202f04\d to 3\u202f35\d m above mean sea level/);
  expect(metric.Client).toMatch(/letters 1\u202f200 m high, the text \d,\d km long, 2,7 km up/);
  // The choice outlives the page, and holds on the ground.
  await page.reload();
  await page.locator('summary', { hasText: /^Where and when/ }).click();
  await expect(unit('Layer, above sea level', 'm')).toBeVisible();
  await page.getByRole('link', { name: 'Ground', exact: true }).click();
  await expect(page.locator('.ground-look-range')).toContainText(/\d km away, 2\u202f\d00 m above you/);
});
