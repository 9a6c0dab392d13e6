import { expect, type Page, test } from '@playwright/test';
import { DEMO_JOB } from '../src/core/job/demo-job.ts';
import { jobAir } from '../src/core/job/job-air.ts';
import { takePhotograph, type PhotographOrder, trulySeen } from '../tests/photograph/render-photograph.ts';
import { flownDemo, putLog, storedLog } from './flown-log.ts';

const flown = flownDemo(11);
const log = storedLog('flight-demo', DEMO_JOB, flown.events);

/** The smoke that was truly laid, photographed from the site so long after the last of it. */
function photographOrder(afterSeconds: number, widthPixels: number): { readonly order: PhotographOrder; readonly takenAtMilliseconds: number } {
  const { trails, driftTrack } = flown.simulation;
  const atSeconds = trails.at(-1)!.at(-1)!.atSeconds + afterSeconds;
  const last = driftTrack.at(-1)!;
  const before = driftTrack.at(-8)!;
  // After the flight the air goes on as it went at its end.
  const perSecond = {
    east: (last.eastMetres - before.eastMetres) / (last.atSeconds - before.atSeconds),
    north: (last.northMetres - before.northMetres) / (last.atSeconds - before.atSeconds),
  };
  const drift = {
    east: last.eastMetres + perSecond.east * (atSeconds - last.atSeconds),
    north: last.northMetres + perSecond.north * (atSeconds - last.atSeconds),
  };
  const smoke = trails.flatMap((puffs) =>
    puffs.flatMap((puff, index) => {
      const next = puffs[index + 1];
      if (index % 3 !== 0 || next === undefined) return [];
      return [
        {
          east: puff.airEastMetres + drift.east,
          north: puff.airNorthMetres + drift.north,
          ageSeconds: atSeconds - puff.atSeconds,
          kilograms: 0.34 * 3 * (next.atSeconds - puff.atSeconds),
        },
      ];
    }),
  );
  const layerMetres = jobAir(DEMO_JOB).layerAboveSiteMetres;
  const east = smoke.reduce((sum, bit) => sum + bit.east, 0) / smoke.length;
  const north = smoke.reduce((sum, bit) => sum + bit.north, 0) / smoke.length;
  const half = Math.max(...smoke.map((bit) => Math.hypot(bit.east - east, bit.north - north)));
  return {
    takenAtMilliseconds: flown.events.at(-1)!.wallMilliseconds + (atSeconds - flown.simulation.atSeconds) * 1000,
    order: {
      smoke,
      layerMetres,
      widthPixels,
      heightPixels: Math.round(widthPixels * 0.75),
      bearingDegrees: (Math.atan2(east, north) * 180) / Math.PI + 1,
      tiltDegrees: (Math.atan2(layerMetres, Math.hypot(east, north)) * 180) / Math.PI - 1,
      rollDegrees: 2,
      focalPixels: (0.33 * widthPixels * Math.hypot(east, north, layerMetres)) / half,
      distortion: 0.02,
      sunBearingDegrees: 160,
      sunElevationDegrees: 45,
      cloud: 0,
      seed: 3,
      diffusivity: 8,
      firstSigmaMetres: 6,
    },
  };
}

/** The corners of the smoke in the picture, as a hand would find them: from the truth, each a little off. */
function cornersSeen(order: PhotographOrder): { x: number; y: number }[] {
  const facing = (DEMO_JOB.facingDegreesTrue * Math.PI) / 180;
  const along = order.smoke.map(({ east, north }) => east * Math.cos(facing) - north * Math.sin(facing));
  const up = order.smoke.map(({ east, north }) => -east * Math.sin(facing) - north * Math.cos(facing));
  const [left, right, bottom, top] = [Math.min(...along), Math.max(...along), Math.min(...up), Math.max(...up)];
  return (
    [
      [left, bottom],
      [right, bottom],
      [right, top],
      [left, top],
    ] as const
  ).map(([x, y], index) => {
    const at = trulySeen(order, x * Math.cos(facing) - y * Math.sin(facing), -x * Math.sin(facing) - y * Math.cos(facing));
    return { x: (at.x + 8 * (index % 2 === 0 ? 1 : -1)) / order.widthPixels, y: (at.y + 6) / order.heightPixels };
  });
}

async function openDebrief(page: Page): Promise<void> {
  page.on('pageerror', (error) => {
    throw error;
  });
  await page.goto('./');
  await page.getByRole('heading', { name: 'Jobs', exact: true }).waitFor();
  await putLog(page, log);
  await page.goto('./#/debrief/lake-ondine');
  await page.reload();
  await expect(page.locator('.debrief[data-replayed="yes"]')).toBeVisible({ timeout: 60_000 });
  await page.getByText('Photographs', { exact: true }).click();
}

test('a photograph is kept unchanged, the word laid over it, and its smoke measured', async ({ page }) => {
  test.setTimeout(240_000);
  const { order, takenAtMilliseconds } = photographOrder(60, 1600);
  // Tall enough that a corner can be dragged from one end of the picture to the other.
  await page.setViewportSize({ width: 1100, height: 1200 });
  const { jpeg } = await takePhotograph(order);
  await openDebrief(page);
  await page.getByLabel('Photographs already taken').setInputFiles([{ name: 'pier.jpg', mimeType: 'image/jpeg', buffer: jpeg }]);
  await expect(page.locator('[data-photographs="1"]')).toBeVisible();
  // The site's own hour, typed to the second; the picture says none.
  const local = new Intl.DateTimeFormat('sv-SE', { timeZone: DEMO_JOB.site.timeZone, dateStyle: 'short', timeStyle: 'medium' })
    .format(takenAtMilliseconds)
    .replace(' ', 'T');
  await page.getByLabel(/Taken at/).fill(local);
  await page.getByLabel(/Taken at/).blur();
  await expect(page.getByText('entered by hand')).toBeVisible();
  const box = (await page.locator('.placed-picture').boundingBox())!;
  for (const [index, { x, y }] of cornersSeen(order).entries()) {
    const corner = page.locator('.placed-picture .corner').nth(index);
    await corner.scrollIntoViewIfNeeded();
    const from = (await corner.boundingBox())!;
    const frame = (await page.locator('.placed-picture').boundingBox()) ?? box;
    await page.mouse.move(from.x + from.width / 2, from.y + from.height / 2);
    await page.mouse.down();
    await page.mouse.move(frame.x + x * frame.width, frame.y + y * frame.height, { steps: 4 });
    await page.mouse.up();
  }
  await page.getByRole('button', { name: 'Lay the word over it' }).click();
  await page.locator('[data-laid], [data-refused]').first().waitFor({ timeout: 60_000 });
  await page.screenshot({ path: 'e2e/results/photograph.png', fullPage: true });
  await expect(page.locator('[data-laid]')).toBeVisible({ timeout: 1000 });
  await expect(page.locator('tr[data-seen-letter]')).toHaveCount(DEMO_JOB.text.length);
  expect(Number(await page.locator('[data-figure="photograph-spreading"]').getAttribute('data-value'))).toBeGreaterThan(4);
  await expect(page.locator('.rectified canvas').first()).toBeVisible();
  await page.screenshot({ path: 'e2e/results/photograph.png', fullPage: true });
  // It is there after a reload.
  await page.reload();
  await page.getByText('Photographs', { exact: true }).click();
  await expect(page.locator('[data-photographs="1"]')).toBeVisible();
});

test('what is no photograph is refused in plain words, and nothing is kept of it', async ({ page }) => {
  test.setTimeout(120_000);
  await openDebrief(page);
  await page.getByLabel('Photographs already taken').setInputFiles([
    { name: 'drawing.jpg', mimeType: 'image/jpeg', buffer: Buffer.from(`<svg xmlns="http://www.w3.org/2000/svg">${' '.repeat(400)}</svg>`) },
    { name: 'page.png', mimeType: 'image/png', buffer: Buffer.from(`<!doctype html><html>${' '.repeat(400)}`) },
    { name: 'empty.jpg', mimeType: 'image/jpeg', buffer: Buffer.alloc(0) },
  ]);
  await expect(page.getByText(/drawing.jpg: It is a drawing or a page/)).toBeVisible();
  await expect(page.getByText(/page.png: It is a drawing or a page/)).toBeVisible();
  await expect(page.getByText(/empty.jpg: The file is empty or broken off/)).toBeVisible();
  await expect(page.locator('[data-photographs="0"]')).toBeVisible();
  // A picture broken off opens its name, not its pixels.
  const { order } = photographOrder(60, 400);
  const { jpeg } = await takePhotograph(order);
  await page.getByLabel('Photographs already taken').setInputFiles([{ name: 'torn.jpg', mimeType: 'image/jpeg', buffer: jpeg.subarray(0, 300) }]);
  await expect(page.locator('[data-photographs="1"]')).toBeVisible();
  await page.getByRole('button', { name: 'Lay the word over it' }).click();
  await expect(page.locator('[data-refused]')).toBeVisible({ timeout: 30_000 });
});
