import { expect, type Page, test } from '@playwright/test';
import { openJobs } from './stored-jobs.ts';

/** Values of the demo that no sheet of another job may ever show. */
const OF_THE_DEMO = [/Ondine/, /122\.75/, /123\.3/, /Knock it off/, /43°\s*5/, /074°/, /EDT/, /2027/];
const SHEETS = ['Kneeboard cards', 'Controller', 'Client'];

async function sheets(page: Page): Promise<string[]> {
  const texts: string[] = [];
  for (const sheet of SHEETS) {
    await page.getByRole('button', { name: sheet }).click();
    await page.locator('.sheet').first().waitFor();
    texts.push(await page.locator('.brief').innerText());
  }
  return texts;
}

async function openFold(page: Page, title: string): Promise<void> {
  await page.locator('details.fold').filter({ hasText: title }).first().locator('summary').click();
}

test.use({ timezoneId: 'America/Recife' });

test('a new job is empty: its sheets name what is missing, and hold nothing of the demo', async ({ page }, info) => {
  await openJobs(page);
  await page.getByRole('button', { name: 'New job' }).click();
  await expect(page.locator('.demo-mark')).toHaveCount(0);
  await openFold(page, 'Where and when');
  await expect(page.locator('[data-variation]')).toHaveText('The model tells it once the site\u2019s position is entered.');
  await openFold(page, 'Ships');
  await expect(page.getByText('once the layer is entered')).toBeVisible();
  await expect(page.getByLabel(/^Calibrated airspeed/)).toHaveCount(0);
  await page.getByRole('link', { name: 'Brief', exact: true }).click();
  for (const text of await sheets(page)) {
    for (const value of OF_THE_DEMO) expect(text).not.toMatch(value);
    for (const missing of ['the words', 'position', 'elevation', 'read time', 'the layer', 'airspeed', 'frequencies', 'winds aloft', 'fuel'])
      expect(text).toContain(missing);
    expect(text).toContain('Not to be flown from');
  }
  await page.screenshot({ path: info.outputPath('missing.png'), fullPage: true });
  await page.getByRole('link', { name: 'Write', exact: true }).click();
  await expect(page.locator('.write-start-hint')).toContainText('Not entered yet: the words');
  await expect(page.getByRole('button', { name: /^Start/ })).toBeDisabled();
  await page.getByRole('link', { name: 'Ground' }).click();
  await expect(page.getByRole('alert')).toContainText('Not entered yet');
});

test('a booking by telephone, entered by the screens alone, gives sheets with what was entered and nothing else', async ({ page }, info) => {
  await openJobs(page);
  await page.getByRole('button', { name: 'New job' }).click();
  await page.getByLabel('Words in the sky').fill('SOL');
  await expect(page.locator('.crowd-view .letter-picture svg')).toBeVisible();
  await openFold(page, 'Booking');
  await page.getByLabel('Name of the job').fill('Festa do Farol');
  await page.getByLabel('Words that call it off').fill('Para tudo');
  await page.getByLabel('Frequency in megahertz').fill('127.45');
  await page.getByLabel('Frequency in megahertz').press('Enter');
  await expect(page.getByLabel(/^Frequency \d+, megahertz$/)).toHaveCount(1);
  await page.getByLabel('Frequency 1, what for').fill('Navios');
  await openFold(page, 'Where and when');
  for (const [label, value] of [
    ['Crowd looks towards, true', '200'],
    ['Layer, above sea level', '2896 m'],
    ['Elevation, ft', '12'],
  ] as const) {
    await page
      .locator('.place-settings input')
      .and(page.getByLabel(label, { exact: false }))
      .first()
      .fill(value);
  }
  await page.getByLabel('Position, pasted in any form').fill('8\u00b0 03,0\u2032 S 34\u00b0 52,2\u2032 W');
  await page.locator('.place-settings').getByLabel('Name').fill('Farol de Olinda');
  await page.getByLabel(/^Read at/).fill('2028-02-20T15:30');
  await openFold(page, 'Ships');
  for (const [label, value] of [
    ['True airspeed', '98'],
    ['Bank while writing', '46'],
    ['Bank between strokes', '44'],
    ['Bank at most, to correct', '56'],
    ['Roll', '40'],
    ['Smoke oil carried', '350'],
    ['Smoke oil burnt', '38'],
    ['Fuel carried', '33'],
    ['Fuel burnt', '13'],
    ['Fuel reserve', '40'],
    ['Smoke appears after', '0.9'],
    ['Smoke ends after', '1.1'],
    ['Hand after the cue', '0.6'],
  ] as const) {
    await page.locator('.ship-settings').getByLabel(label, { exact: true }).fill(value);
  }
  // One comma before three digits can mean two things: it is asked.
  await page.locator('.ship-settings').getByLabel('Smoke oil carried', { exact: true }).fill('1,250');
  await page.getByRole('group', { name: 'Which is meant?' }).getByRole('button', { name: '1,250 lb' }).click();
  await expect(page.locator('.ship-settings').getByLabel('Smoke oil carried', { exact: true })).toHaveValue('1250');
  await expect(page.locator('[data-save="saved"]')).toBeVisible();
  await page.screenshot({ path: info.outputPath('entered.png'), fullPage: true });
  await page.getByRole('link', { name: 'Brief', exact: true }).click();
  const [card = '', controller = '', client = ''] = await sheets(page);
  for (const text of [card, controller, client]) {
    for (const value of OF_THE_DEMO) expect(text).not.toMatch(value);
    expect(text).not.toContain('Not to be flown from');
  }
  for (const text of [card, controller]) {
    expect(text).toContain('Navios 127.450');
    expect(text).toContain('Para tudo');
    expect(text).toContain('Not entered: winds aloft');
  }
  expect(controller).toContain('S 03');
  expect(client).toContain('Festa do Farol');
  expect(client).toContain('18:30:00 UTC (15:30 GMT-3)');
});
