import { readFileSync } from 'node:fs';
import { XMLValidator } from 'fast-xml-parser';
import { expect, type Page, test } from '@playwright/test';
import { exportedTrack } from '../src/core/debrief/exported-track.ts';
import { DEMO_JOB } from '../src/core/job/demo-job.ts';
import type { Job } from '../src/core/job/job.ts';
import { writeGpx } from '../src/core/tracks/gpx-write.ts';
import { readTracks } from '../src/core/tracks/track-read.ts';
import { flownDemo, putLog, storedLog } from './flown-log.ts';
import { storedDemoJob } from './typed-job.ts';

const flown = flownDemo(11);
const log = storedLog('flight-demo', DEMO_JOB, flown.events);
const track = exportedTrack(flown.log, flown.debrief.intervals);

async function openDebrief(page: Page, stored = log): Promise<void> {
  await page.goto('./');
  await page.getByRole('heading', { name: 'Jobs', exact: true }).waitFor();
  await putLog(page, stored);
  await page.goto('./#/debrief/lake-ondine');
  await page.reload();
  await expect(page.locator('.debrief[data-replayed="yes"]')).toBeVisible({ timeout: 60_000 });
}

function openFolds(page: Page): Promise<void> {
  return page.evaluate(() => document.querySelectorAll('details').forEach((fold) => (fold.open = true)));
}

test('a stored flight is judged, scrubbed and replayed, offline', async ({ page, context }) => {
  test.setTimeout(120_000);
  await page.goto('./');
  await page.locator('[data-shell="complete"]').waitFor();
  await putLog(page, log);
  await context.setOffline(true);
  await page.goto('./#/debrief/lake-ondine');
  await page.reload();
  await expect(page.locator('.debrief[data-replayed="yes"]')).toBeVisible({ timeout: 60_000 });
  await expect(page.locator('[data-figure="strokes-flown"]')).toHaveAttribute('data-value', String(flown.setup.strokes.length));
  const knots = Number(await page.locator('[data-figure="wind-found-knots"]').getAttribute('data-value'));
  const here = flown.debrief.flight.windFound!;
  expect(knots).toBeCloseTo(Math.hypot(here.eastMetresPerSecond, here.northMetresPerSecond) * 1.9438, 0);
  await expect(page.locator('tr[data-letter]')).toHaveCount(DEMO_JOB.text.length);

  // The cue at a moment in the middle of a stroke is the cue that was shown.
  const { onSeconds, offSeconds } = flown.debrief.intervals[1]!;
  const middle = (onSeconds + offSeconds) / 2;
  const shown = flown.shown.findLast(({ atSeconds }) => atSeconds <= middle)!;
  await page.getByLabel('Time of the flight').fill((flown.log.zeroMilliseconds / 1000 + middle).toFixed(1));
  await expect(page.locator('.cues-shown')).toHaveAttribute('data-phase', shown.cues.phase);
  await expect(page.locator('.cue-line')).toContainText(`stroke ${shown.cues.strokeNumber} of ${shown.cues.strokeCount}`);

  // It plays, and stops at the end.
  await page.getByRole('combobox', { name: /^Speed/ }).selectOption('60');
  await page.getByRole('button', { name: 'Play' }).click();
  await expect(page.getByRole('button', { name: 'Pause' })).toBeVisible();
  // Half an hour of reading at most, sixty times as fast.
  await expect(page.getByRole('button', { name: 'Play' })).toBeVisible({ timeout: 45_000 });
});

test('the wind a flight measured goes among the job\u2019s winds at its height, and is taken back by one touch', async ({ page }) => {
  test.setTimeout(120_000);
  await openDebrief(page);
  const windsOf = async (): Promise<Job['winds']> => (await storedDemoJob(page)).winds;
  await page.getByRole('button', { name: 'Plan with this wind' }).click();
  await expect(page.locator('.wind-to-job')).toContainText('now stands among the winds');
  const put = (await windsOf()).find(({ altitudeFeet }) => altitudeFeet === DEMO_JOB.layer.altitudeFeet);
  expect(put?.speedKnots).toBeCloseTo(Number(await page.locator('[data-figure="wind-found-knots"]').getAttribute('data-value')), 1);
  await page.locator('.wind-to-job').getByRole('button', { name: 'Undo' }).click();
  await expect.poll(windsOf).toHaveLength(DEMO_JOB.winds.length);
});

test('smoke marked by hand teaches the valve; one touch carries it into the ship, another takes it back', async ({ page }) => {
  test.setTimeout(120_000);
  await openDebrief(page);
  await openFolds(page);
  const scrub = page.getByLabel('Time of the flight');
  // The true smoke, one beginning and end after another.
  const { switchings } = flown.simulation;
  for (const { atSeconds, on } of switchings) {
    await scrub.fill((flown.log.zeroMilliseconds / 1000 + atSeconds).toFixed(1));
    await page.getByRole('button', { name: on ? /^Smoke on at/ : /^Smoke off at/ }).click();
  }
  await expect(page.locator('.marks li')).toHaveCount(switchings.length / 2);
  const valve = page.locator('[data-lesson="valve-on"]');
  expect(Math.abs(Number(await valve.getAttribute('data-value')) - 0.8)).toBeLessThan(0.1);
  const valveOf = async (): Promise<number> => (await storedDemoJob(page)).ships[0]!.reactionSeconds;
  expect(await valveOf()).toBe(0.4);
  const reaction = page.locator('[data-lesson="reaction"]');
  const learned = Math.round(Number(await reaction.getAttribute('data-value')) * 10) / 10;
  await reaction.getByRole('button', { name: 'Use it' }).click();
  await expect(page.locator('.done')).toContainText('Carried into Lead');
  expect(await valveOf()).toBe(learned);
  await page.locator('.done').getByRole('button', { name: 'Undo' }).click();
  await expect(page.locator('.done')).toHaveCount(0);
  expect(await valveOf()).toBe(0.4);
  // Marks outlive the page.
  await page.reload();
  await expect(page.locator('.marks li')).toHaveCount(switchings.length / 2, { timeout: 30_000 });
});

test('a track of another ship is taken in beside it; hostile and broken ones are refused within two seconds and change nothing', async ({ page }) => {
  test.setTimeout(120_000);
  await openDebrief(page);
  await openFolds(page);
  const picker = page.getByLabel('Track files to import');
  const bomb = `<?xml version="1.0"?><!DOCTYPE g [<!ENTITY a "${'x'.repeat(1000)}">${Array.from({ length: 100 }, (_, index) => `<!ENTITY b${index} "&a;&a;&a;&a;">`).join('')}]><gpx><trk><name>&b99;</name></trk></gpx>`;
  const shifted = { ...track, name: 'Two', points: track.points.map((point) => ({ ...point, longitudeDegrees: point.longitudeDegrees + 0.006 })) };
  const good = writeGpx([shifted], 'another recorder');
  for (const [name, text, reason] of [
    ['bomb.gpx', bomb, 'document type or an entity'],
    ['torn.gpx', good.slice(0, good.length / 2), 'damaged or broken off'],
    ['empty.igc', '', 'The file is empty'],
    ['note.txt', 'hello', 'neither GPX nor IGC'],
    ['undated.igc', 'AXXX001\r\nB1101355206343N00006198WA0058700558\r\n', 'before the flight'],
  ] as const) {
    const before = Date.now();
    await picker.setInputFiles([{ name, mimeType: 'application/octet-stream', buffer: Buffer.from(text) }]);
    await expect(page.locator('[data-notice="refused"]')).toContainText(reason);
    await expect(page.locator('[data-notice="refused"]')).toContainText(name);
    expect(Date.now() - before).toBeLessThan(2000);
    await expect(page.locator('.tracks li')).toHaveCount(0);
    await page.locator('[data-notice="refused"]').getByRole('button', { name: 'Close' }).click();
  }
  // One bad file among good ones: none is taken.
  await picker.setInputFiles([
    { name: 'two.gpx', mimeType: 'application/gpx+xml', buffer: Buffer.from(good) },
    { name: 'bad.gpx', mimeType: 'application/gpx+xml', buffer: Buffer.from('<kml/>') },
  ]);
  await expect(page.locator('[data-notice="refused"]')).toContainText('None of the files was taken');
  await expect(page.locator('.tracks li')).toHaveCount(0);

  await picker.setInputFiles([{ name: 'two.gpx', mimeType: 'application/gpx+xml', buffer: Buffer.from(good) }]);
  await expect(page.locator('.tracks li')).toHaveCount(1);
  await expect(page.locator('.figure-row', { hasText: 'Nearest, Lead and Two' })).toBeVisible();
  // 0.006 degrees of longitude at 43.87 north.
  const nearest = await page.locator('.figure-row', { hasText: 'Nearest, Lead and Two' }).locator('.figure-value').innerText();
  expect(Math.abs(Number(nearest.replace(/[^\d.]/g, '')) / 3.2808 - 0.006 * 111_320 * Math.cos((43.87 * Math.PI) / 180))).toBeLessThan(25);
  await page.locator('.tracks li').getByRole('button', { name: 'Remove' }).click();
  await expect(page.locator('.tracks li')).toHaveCount(0);
  await page.locator('.done').getByRole('button', { name: 'Undo' }).click();
  await expect(page.locator('.tracks li')).toHaveCount(1);
  await page.reload();
  await expect(page.locator('.tracks li')).toHaveCount(1, { timeout: 30_000 });
});

test('every format is given away, and holds the flight', async ({ page }) => {
  test.setTimeout(120_000);
  await openDebrief(page);
  await openFolds(page);
  const given = async (label: string): Promise<string> => {
    const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: label, exact: true }).click()]);
    return readFileSync(await download.path(), 'utf8');
  };
  for (const label of ['GPX', 'IGC']) {
    const read = readTracks(await given(label));
    expect(read.ok && read.value.tracks[0]!.points.length, label).toBe(track.points.length);
  }
  const kml = await given('KML');
  expect(XMLValidator.validate(kml)).toBe(true);
  expect(kml.match(/<when>/g)).toHaveLength(track.points.length);
  const geojson = JSON.parse(await given('GeoJSON')) as { features: { properties: { smoke: string } }[] };
  expect(geojson.features.filter(({ properties }) => properties.smoke === 'on')).toHaveLength(flown.debrief.intervals.length);
  expect((await given('CSV')).trimEnd().split('\r\n')).toHaveLength(track.points.length + 1);
  const [film] = await Promise.all([page.waitForEvent('download', { timeout: 60_000 }), page.getByRole('button', { name: /^Film/ }).click()]);
  expect(film.suggestedFilename()).toMatch(/\.(webm|mp4|zip)$/);
  const made = readFileSync(await film.path());
  expect(made.length).toBeGreaterThan(20_000);
  // The browser plays its own film, to its end.
  const played = await page.evaluate(
    async (bytes) => {
      const video = document.createElement('video');
      video.muted = true;
      video.src = URL.createObjectURL(new Blob([new Uint8Array(bytes)], { type: 'video/webm' }));
      await new Promise((resolve, reject) => {
        video.onloadeddata = resolve;
        video.onerror = () => reject(new Error(video.error?.message));
      });
      video.currentTime = 11;
      await new Promise((resolve) => (video.onseeked = resolve));
      return { seconds: video.duration, width: video.videoWidth, at: video.currentTime };
    },
    [...made],
  );
  expect(played.width).toBe(1280);
  expect(played.seconds).toBeGreaterThan(11.5);
  expect(played.at).toBeCloseTo(11, 0);
});

test('a lost stretch of the log is shown as lost, a damaged flight by name, and nothing else breaks', async ({ page }) => {
  test.setTimeout(120_000);
  const torn = { ...log, rows: log.rows.filter(({ sequence }) => sequence < 2000 || sequence >= 2100) };
  await openDebrief(page, torn);
  await expect(page.locator('[data-notice="missing"]')).toContainText('100 rows of the log are lost');
  await expect(page.locator('.time-lost')).toHaveCount(1);
});

test('on paper there is the client\u2019s report and nothing else', async ({ page }) => {
  test.setTimeout(120_000);
  await openDebrief(page);
  await page.emulateMedia({ media: 'print' });
  await expect(page.locator('.client-report')).toBeVisible();
  await expect(page.locator('.client-report h1')).toHaveText('SAIL');
  await expect(page.locator('.debrief-pictures')).toBeHidden();
  const painted = await page
    .locator('.client-report canvas')
    .evaluate((canvas: HTMLCanvasElement) => new Set(canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height).data).size);
  expect(painted).toBeGreaterThan(50);
});
