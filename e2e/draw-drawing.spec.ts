import { readFile } from 'node:fs/promises';
import { expect, type Page, test } from '@playwright/test';

async function openPlan(page: Page): Promise<void> {
  page.on('pageerror', (error) => {
    throw error;
  });
  await page.goto('./#/draw/lake-ondine');
  await expect(page.locator('.plan-strip[data-state="planned"] .strip-words')).toHaveText('SAIL', { timeout: 30_000 });
}

interface PlanFile {
  readonly type: string;
  readonly text: string;
  readonly features: readonly {
    readonly properties: { readonly ship: string; readonly kind: string; readonly letter: string | null; readonly coordTimes: readonly string[] };
    readonly geometry: { readonly type: string; readonly coordinates: readonly unknown[] };
  }[];
}

/** The file that a press of the button gives, parsed. */
async function fileFrom(page: Page, button: ReturnType<Page['getByRole']>): Promise<{ readonly name: string; readonly plan: PlanFile }> {
  const [download] = await Promise.all([page.waitForEvent('download'), button.click()]);
  return { name: download.suggestedFilename(), plan: JSON.parse(await readFile(await download.path(), 'utf8')) as PlanFile };
}

/** RFC 7946 lines, a time for each vertex, no two further apart than a second. */
function expectTimedLines({ type, features }: PlanFile): void {
  expect(type).toBe('FeatureCollection');
  for (const { properties, geometry } of features) {
    expect(geometry.type).toBe('LineString');
    expect(properties.coordTimes.length).toBe(geometry.coordinates.length);
    const times = properties.coordTimes.map((time) => Date.parse(time));
    for (let index = 1; index < times.length; index += 1) expect(times[index]! - times[index - 1]!).toBeLessThanOrEqual(1000);
  }
}

const star = (radius: number): string =>
  `<svg xmlns="http://www.w3.org/2000/svg"><circle cx="50" cy="50" r="45"/><circle cx="50" cy="50" r="${radius}"/><text>Ondine</text></svg>`;

test('a drawing is shown as strokes, what cannot be flown is marked with its reason, and its plan is given away', async ({ page }) => {
  await openPlan(page);
  await page.locator('summary', { hasText: 'Drawings' }).click();
  await page.locator('.artwork-entry input[type="file"]').setInputFiles({ name: 'rings.svg', mimeType: 'image/svg+xml', buffer: Buffer.from(star(12)) });
  const view = page.locator('[data-artwork="read"]');
  // Widened a little the inner ring is flown too, and the screen says so.
  await expect(view).toHaveAttribute('data-strokes', '2');
  await expect(view.locator('[data-artwork-changes]')).toContainText('1 small ring widened');
  await page.getByRole('radio', { name: 'Leave it out' }).check({ force: true });
  await expect(view).toHaveAttribute('data-strokes', '1');
  await expect(view).toHaveAttribute('data-unflyable', '1');
  await expect(view.locator('.caution')).toContainText('the ship needs');
  await expect(view).toContainText('Passed over, since it is no line: text');
  await expect(view.locator('.artwork-unflyable path')).toHaveCount(1);
  await expect(view.locator('[data-figure="artwork-seconds"]')).toBeVisible();
  const { name, plan } = await fileFrom(page, view.getByRole('button', { name: 'Keep as GeoJSON' }));
  expect(name).toBe('rings.geojson');
  expectTimedLines(plan);
  // Deep enough, the inner ring is flown too.
  await page.getByRole('textbox', { name: 'Depth of the drawing', exact: true }).fill('9000');
  await expect(view).toHaveAttribute('data-unflyable', '0');
  // Put into the job it is planned with the words.
  await page.getByRole('button', { name: 'Put it into the job' }).click();
  await expect(page.locator('[data-drawing="rings"]')).toBeVisible();
  await expect(page.locator('.plan-strip[data-state="planned"]')).toBeVisible({ timeout: 30_000 });
});

test('a drawing of 100,000 points and one that is none are refused in words, within seconds', async ({ page }) => {
  await openPlan(page);
  await page.locator('summary', { hasText: 'Drawings' }).click();
  const points = Array.from({ length: 100_000 }, (_, index) => `${(index * 7919) % 1009},${(index * 104_729) % 997}`).join(' ');
  const input = page.locator('.artwork-entry input[type="file"]');
  await input.setInputFiles({ name: 'traced.svg', mimeType: 'image/svg+xml', buffer: Buffer.from(`<svg><polyline points="${points}"/></svg>`) });
  await expect(page.locator('[data-artwork="refused"]')).toContainText(/points; at most 10,000 can be read|could not be read within 2 s/);
  await input.setInputFiles({ name: 'letter.svg', mimeType: 'image/svg+xml', buffer: Buffer.from('<html/>') });
  await expect(page.locator('[data-artwork="refused"]')).toContainText('not SVG');
});

test('the plan is given away as GeoJSON, and each letter says its age at the end', async ({ page }) => {
  await openPlan(page);
  const { name, plan } = await fileFrom(page, page.getByRole('button', { name: 'Keep as GeoJSON' }));
  expect(name).toMatch(/^lake-ondine-regatta-demo-sail.*\.geojson$/);
  expect(plan.text).toBe('SAIL');
  expectTimedLines(plan);
  expect(new Set(plan.features.flatMap(({ properties }) => properties.letter ?? []))).toEqual(new Set('SAIL'));
  await page.locator('summary', { hasText: 'Age of the letters' }).click();
  await expect(page.locator('[data-letter]')).toHaveCount(4);
});

test('height steps show what they cost, and too high a step says so', async ({ page }) => {
  await openPlan(page);
  await page.locator('summary', { hasText: 'Ships' }).click();
  await page.locator('.ships-settings').getByRole('radio', { name: '2', exact: true }).check();
  await page.locator('summary', { hasText: 'Order' }).click();
  const step = page.getByRole('textbox', { name: 'Each ship higher by', exact: true });
  await step.fill('150');
  const cost = page.locator('[data-figure="height-step-share"]');
  await expect(cost).toContainText('Words like this were still read', { timeout: 20_000 });
  await step.fill('1500');
  await expect(cost).toContainText('take a smaller step', { timeout: 20_000 });
});
