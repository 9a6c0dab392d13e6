import { createServer } from 'node:http';
import { readFileSync } from 'node:fs';
import { expect, type Page, test } from '@playwright/test';
import { DEMO_JOB } from '../src/core/job/demo-job.ts';
import { parseObserverLog } from '../src/core/wire/parse-observer-log.ts';
import { createHub, LINK_PATH } from '../src/hub/create-hub.ts';
import { listenFrom } from '../src/hub/listen.ts';
import { selfSigned } from '../tests/hub/self-signed.ts';
import { startHubBroker } from './ground-brokers.ts';
import { linkUp } from './ground-pages.ts';
import { startGroundWire } from './ground-wire.ts';
import { openJobs } from './stored-jobs.ts';

const READ = Date.parse(DEMO_JOB.readTime);
/** The address under test, for contexts that a test makes itself. */
const baseAddress = (): { baseURL?: string } => (process.env['QUILLWIND_URL'] === undefined ? {} : { baseURL: process.env['QUILLWIND_URL'] });

const GROUND = `./#/ground/${DEMO_JOB.id}`;

async function openGround(page: Page, atMilliseconds = READ): Promise<void> {
  await page.clock.install({ time: atMilliseconds });
  await openJobs(page);
  await page.goto(GROUND);
  await page.locator('.ground-letter').first().waitFor({ timeout: 30_000 });
}

const figure = async (page: Page, name: string): Promise<string> => (await page.locator(`[data-figure="${name}"]`).getAttribute('data-value')) ?? '';

test('an observer beside the crowd is told where to look from there, also after a reload', async ({ page, context }) => {
  await openGround(page, READ);
  const [crowdAzimuth, crowdElevation] = [Number(await figure(page, 'look-azimuth')), Number(await figure(page, 'look-elevation'))];
  // 3 km east of the site: a degree of longitude is 111.3 km on the equator.
  const { latitudeDegrees, longitudeDegrees } = DEMO_JOB.site;
  const east = 3000;
  await context.grantPermissions(['geolocation']);
  await context.setGeolocation({ latitude: latitudeDegrees, longitude: longitudeDegrees + east / (111_320 * Math.cos((latitudeDegrees * Math.PI) / 180)) });
  await page.getByLabel('You stand').selectOption('here');
  await expect(page.locator('.ground-standing')).toHaveAttribute('data-stands', 'here');
  const above = (DEMO_JOB.layer.altitudeFeet - DEMO_JOB.site.elevationFeet) * 0.3048;
  const out = above / Math.tan((crowdElevation * Math.PI) / 180);
  const [x, y] = [out * Math.sin((crowdAzimuth * Math.PI) / 180) - east, out * Math.cos((crowdAzimuth * Math.PI) / 180)];
  const stands = async (): Promise<void> => {
    await expect.poll(async () => Math.abs(Number(await figure(page, 'look-azimuth')) - (((Math.atan2(x, y) * 180) / Math.PI + 360) % 360))).toBeLessThan(0.7);
    expect(Math.abs(Number(await figure(page, 'look-elevation')) - (Math.atan2(above, Math.hypot(x, y)) * 180) / Math.PI)).toBeLessThan(0.7);
    await expect(page.locator('.ground-standing')).toContainText(/from here it (stands|will stand) turned by/);
  };
  await stands();
  await page.reload();
  await page.locator('.ground-letter').first().waitFor({ timeout: 30_000 });
  await stands();
  await page.getByLabel('You stand').selectOption('crowd');
  expect(Math.abs(Number(await figure(page, 'look-azimuth')) - crowdAzimuth)).toBeLessThan(0.7);
});

test('the ground works with no network at all: where to look, the hack, ratings and notes that stay', async ({ page, browser }) => {
  await openGround(page, READ - 120_000);
  await page.context().setOffline(true);
  await page.clock.pauseAt(READ);
  // At the read time the text hangs where the job says: 340 degrees true, 35 high.
  expect(Math.abs(Number(await figure(page, 'look-azimuth')) - DEMO_JOB.facingDegreesTrue)).toBeLessThan(0.2);
  expect(Math.abs(Number(await figure(page, 'look-elevation')) - DEMO_JOB.viewElevationDegrees)).toBeLessThan(0.2);
  expect(await figure(page, 'datum-source')).toBe('plan');
  await page.clock.resume();

  await page.getByLabel('first smoke in').fill('1:00');
  await page.getByRole('button', { name: 'Time hack' }).click();
  await page.clock.runFor(10_000);
  expect(Number(await figure(page, 'since-datum'))).toBeGreaterThan(-52);
  expect(Number(await figure(page, 'since-datum'))).toBeLessThan(-45);
  await expect(page.locator('[data-figure="ship-0"]')).toHaveAttribute('data-value', 'waiting');
  await page.getByRole('button', { name: 'I see the first smoke' }).click();
  await page.clock.runFor(8000);
  await expect(page.locator('[data-figure="ship-0"]')).toHaveAttribute('data-value', 'smoke');

  const first = page.locator('.ground-letter').first();
  // A letter is rated once it has been laid; the clock's keys fold away once it runs.
  await expect(first.getByRole('button')).toHaveCount(0);
  await page.clock.runFor(100_000);
  await expect(page.getByRole('button', { name: 'I see the first smoke' })).toHaveCount(0);
  await first.getByRole('button', { name: 'Weak' }).click();
  await expect(first).toHaveAttribute('data-rating', 'weak');
  await page.getByLabel('A note, stamped with the time').fill('thin <b>cloud</b> to the west');
  await page.getByRole('button', { name: 'Write it down' }).click();
  await page.getByRole('button', { name: 'Traffic' }).click();
  await expect(page.locator('[data-figure="call-way"]')).toHaveAttribute('data-value', 'radio');
  await page.locator('.ground-entries li', { hasText: 'traffic' }).getByRole('button').click();
  await expect(page.locator('.ground-entries li', { hasText: 'traffic' })).toHaveCount(0);

  await page.clock.runFor(1000);
  await page.reload();
  await page.locator('.ground-letter').first().waitFor({ timeout: 30_000 });
  await expect(page.locator('.ground-letter').first()).toHaveAttribute('data-rating', 'weak');
  await expect(page.locator('.ground-entries')).toContainText('thin <b>cloud</b> to the west');
  expect(await figure(page, 'datum-source')).toBe('radio');

  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Hand over the log' }).click();
  const text = readFileSync(await (await download).path(), 'utf8');
  const log = parseObserverLog(text);
  expect(log.ok && log.value.entries.map(({ kind }) => kind)).toEqual(['hack', 'hack', 'rated', 'noted', 'called', 'withdrawn']);

  const other = await browser.newContext(baseAddress());
  const theirs = await other.newPage();
  await openGround(theirs);
  await theirs.getByLabel('Observer’s log to take').setInputFiles([{ name: 'log.json', mimeType: 'application/json', buffer: Buffer.from(text) }]);
  await expect(theirs.locator('[data-figure="other-logs"]')).toHaveAttribute('data-value', '1');
  await theirs
    .getByLabel('Observer’s log to take')
    .setInputFiles([{ name: 'log.json', mimeType: 'application/json', buffer: Buffer.from('{"format":"quillwind-job"}') }]);
  await expect(theirs.getByRole('alert').last()).toContainText('not an observer');
  await other.close();
});

test('the compass says which way to turn, and how little to trust it', async ({ page }) => {
  await page.context().grantPermissions(['accelerometer', 'gyroscope', 'magnetometer']);
  await openGround(page);
  await page.getByRole('button', { name: 'Point with this device' }).click();
  const turn = (alpha: number, beta: number): Promise<void> =>
    page.evaluate(
      ([a, b]) => {
        dispatchEvent(Object.assign(new Event('deviceorientationabsolute'), { alpha: a, beta: b, gamma: 0, absolute: true }));
      },
      [alpha, beta] as const,
    );
  // Variation at the lake is 12 to 13 degrees west: magnetic 352 and a half is true 340.
  await turn(360 - 352.5, 125);
  await expect(page.locator('.ground-turn')).toHaveText('There.');
  await turn(360 - 312, 100);
  await expect(page.locator('.ground-turn')).toHaveText(/Turn right (39|40|41|42)°\. Higher (24|25|26)°\./);
  await expect(page.locator('.ground-compass')).toContainText('hint');
  await turn(0, 0);
  await expect(page.locator('.ground-compass')).toContainText('Hold the device up');
});

test('a job passes from screen to camera with no network between', async ({ page, browser }) => {
  test.setTimeout(120_000);
  await openJobs(page);
  await page.getByRole('button', { name: `To another device: ${DEMO_JOB.name}` }).click();
  // The digest is worked out off the page.
  await page.locator('[data-figure="job-digest"]').waitFor();
  const address = new URL(await figure(page, 'join-address'));
  expect(address.hash).toContain(`/ground/${DEMO_JOB.id}/join?digest=`);
  await page.getByRole('button', { name: 'Show the job as codes' }).click();
  const frames = page.locator('.job-frames');
  const count = Number(await frames.getAttribute('data-frames'));
  expect(count).toBeGreaterThan(1);
  await page.getByRole('button', { name: 'Stop' }).click();
  const pictures: Buffer[] = [];
  for (let index = 0; index < count; index += 1) {
    pictures.push(await frames.locator('.qr-picture').screenshot());
    await frames.getByRole('button', { name: 'Next' }).click();
  }

  const other = await browser.newContext(baseAddress());
  const phone = await other.newPage();
  await openJobs(phone);
  // A device that never had the job.
  await phone.getByRole('article', { name: DEMO_JOB.name }).getByRole('button', { name: 'Delete' }).click();
  await other.setOffline(true);
  await phone.goto(`./${address.hash}`);
  await phone.getByRole('heading', { name: 'This job is not on this device yet' }).waitFor();
  await phone
    .getByLabel('Pictures of codes')
    .setInputFiles(pictures.toReversed().map((buffer, index) => ({ name: `${index}.png`, mimeType: 'image/png', buffer })));
  await expect(phone.locator('[data-figure="taken-job"]')).toHaveAttribute('data-value', DEMO_JOB.id, { timeout: 60_000 });
  await expect(phone.locator('[data-figure="taken-job"]')).toContainText('It is the version that the join code names.');
  await phone.getByRole('button', { name: 'Keep it on this device' }).click();
  await phone.locator('.ground-letter').first().waitFor({ timeout: 30_000 });
  await other.close();
});

test('a local receiver shows a ship without a link, at the age it says', async ({ page }) => {
  let age = 0.5;
  let broken = false;
  const receiver = createServer((_request, response) => {
    response.writeHead(broken ? 500 : 200, { 'Content-Type': 'application/json', 'Access-Control-Allow-Origin': '*' });
    response.end(JSON.stringify({ planes: [{ hex: 'abc123', pos: { lat: 43.91, lon: -74.45 }, alt: 10_500, seen: age }, { hex: 'other' }] }));
  });
  const port = await listenFrom(receiver, 0);
  try {
    await openGround(page);
    await page.getByText('Follow a ship by a local receiver').click();
    const panel = page.locator('.ground-receiver');
    await panel.getByLabel('Address').fill(`http://localhost:${port}/data.json`);
    for (const [label, name] of [
      ['List of aircraft', 'planes'],
      ['Id', 'hex'],
      ['Latitude, degrees', 'pos.lat'],
      ['Longitude, degrees', 'pos.lon'],
      ['Altitude', 'alt'],
      ['Age of the position, s', 'seen'],
    ] as const) {
      await panel.getByLabel(label, { exact: true }).fill(name);
    }
    await panel.getByLabel('The ship’s id there').fill('ABC123');
    await panel.getByRole('button', { name: 'Follow', exact: true }).click();
    await expect(page.locator('[data-figure="receiver"]')).toHaveAttribute('data-value', 'live');
    await expect(page.locator('.ground-ships [data-ship="receiver-abc123"]')).toHaveAttribute('data-fresh', 'live');
    age = 40;
    await page.clock.runFor(1000);
    await expect(page.locator('[data-figure="receiver"]')).toHaveAttribute('data-value', 'stale');
    broken = true;
    await page.clock.runFor(1000);
    await expect(page.locator('.ground-receiver')).toContainText('status 500');
    await expect(page.locator('.ground-ships [data-ship="receiver-abc123"]')).toHaveAttribute('data-fresh', 'stale');
  } finally {
    receiver.closeAllConnections();
    receiver.close();
  }
});

test('a link that cannot be says why: wrong certificate, wrong password, a broker that stalls', async ({ page }) => {
  test.setTimeout(120_000);
  const broker = await startHubBroker();
  const stalling = await startGroundWire(broker.address);
  const untrusted = createHub({ distDirectory: '.', certificate: selfSigned() });
  const securePort = await listenFrom(untrusted, 0);
  const refusedRequests: string[] = [];
  try {
    await openGround(page);
    const state = page.locator('.ground-link');
    await linkUp({ page, name: 'anna' }, `wss://localhost:${securePort}${LINK_PATH}`, 'Link up');
    await expect(async () => {
      await page.clock.runFor(1000);
      await expect(state).toContainText('certificate is not trusted', { timeout: 100 });
    }).toPass({ timeout: 30_000 });
    await expect(state.getByRole('link')).toHaveAttribute('href', `https://localhost:${securePort}/`);

    await linkUp({ page, name: 'anna' }, broker.address, 'Link again with these', 'wrong');
    await expect(async () => {
      await page.clock.runFor(500);
      await expect(state).toHaveAttribute('data-link', 'refused', { timeout: 100 });
    }).toPass({ timeout: 30_000 });
    page.on('websocket', (socket) => refusedRequests.push(socket.url()));
    await page.clock.runFor(60_000);
    expect(refusedRequests).toEqual([]);

    stalling.stall();
    await linkUp({ page, name: 'anna' }, stalling.address, 'Link again with these');
    await expect(async () => {
      await page.clock.runFor(2000);
      await expect(state).toContainText('gave no answer', { timeout: 100 });
    }).toPass({ timeout: 30_000 });

    stalling.heal();
    await expect(async () => {
      await page.clock.runFor(1000);
      await expect(state).toHaveAttribute('data-link', 'linked', { timeout: 200 });
    }).toPass({ timeout: 40_000 });
    await page.getByRole('button', { name: 'Unlink' }).click();
    await expect(state).toHaveAttribute('data-link', 'off');
  } finally {
    await stalling.close();
    untrusted.closeAllConnections();
    untrusted.close();
    await broker.stop();
  }
});
