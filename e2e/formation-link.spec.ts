import { expect, type Locator, test } from '@playwright/test';
import { siteFromGeodetic } from '../src/core/earth/site-frame.ts';
import { windVectorFrom } from '../src/core/earth/wind-vector.ts';
import { jobAir } from '../src/core/job/job-air.ts';
import { planJob } from '../src/core/plan/plan-job.ts';
import type { LinkEvent } from '../src/core/wire/link-messages.ts';
import { radiansFromDegrees } from '../src/core/units/angle.ts';
import { metresPerSecondFromKnots } from '../src/core/units/quantity.ts';
import { startHubBroker } from './ground-brokers.ts';
import { type Device, eventsTold, GROUND_JOB, holdClocks, openDevice, readyShip, run, runUntil, smokeTold, startShip } from './ground-pages.ts';
import { startGroundWire } from './ground-wire.ts';

const REAL_WIND = { fromDegrees: 150, knots: 22 };
/** Hung for a wind that is known to some knots, flown by hand, and told once a second: far less than it was moved. */
const SAME_PLACE_METRES = 250;
const LATE_HACK_SECONDS = 15;

const hungOf = ({ page }: Device): Locator => page.locator('[data-figure="formation-hung"]');
const nearOf = ({ page }: Device): Locator => page.locator('.write-near');
const valueOf = (device: Device): Promise<string> => hungOf(device).getAttribute('data-value').then(String);

/** By how much a ship's first smoke lies off where the plan, as briefed and without drift, has it; and when. */
async function firstSmokeOff(device: Device, shipIndex: number): Promise<{ eastMetres: number; northMetres: number; atMilliseconds: number }> {
  const planned = planJob(GROUND_JOB);
  if (!planned.ok) throw new Error('no plan');
  const air = jobAir(GROUND_JOB);
  const start = planned.value.plan.ships[shipIndex]?.legs.find(({ kind }) => kind === 'smoke')?.path.start;
  const [first] = await eventsTold<Extract<LinkEvent, { kind: 'laid' }>>(device, 'laid');
  if (start === undefined || first === undefined) throw new Error('no smoke');
  const place = { latitudeDegrees: first.latitudesDegrees[0] ?? NaN, longitudeDegrees: first.longitudesDegrees[0] ?? NaN };
  const { eastMetres, northMetres } = siteFromGeodetic(place, air.layerHeightMetres, air.site);
  return { eastMetres: eastMetres - start.airEastMetres, northMetres: northMetres - start.airNorthMetres, atMilliseconds: first.fromMilliseconds };
}

test('a hack 15 s late is told and mended; the lead hangs the word by a touch and Two by the link without one, refused and reloaded; one place', async ({
  browser,
}) => {
  test.setTimeout(540_000);
  const broker = await startHubBroker();
  const began = Date.now();
  const open = async (name: string): Promise<Device> => openDevice(browser, name, await startGroundWire(broker.address), began);
  const devices = [await open('lead'), await open('two')];
  const [lead, two] = devices as [Device, Device];
  try {
    for (const [shipIndex, device] of devices.entries()) {
      await readyShip(device, shipIndex);
      await device.page.getByLabel('Real wind from').fill(String(REAL_WIND.fromDegrees));
      await device.page.getByLabel('Its speed, kt').fill(String(REAL_WIND.knots));
    }
    await startShip(lead);
    await holdClocks(devices, began);
    await run(devices, LATE_HACK_SECONDS);
    await startShip(two);
    two.wire.doubleEverything();
    const leadTime = two.page.locator('[data-figure="lead-time"]');
    await runUntil(devices, 30, 'Two hears of the lead’s time', async () => (await leadTime.count()) > 0);
    await expect(leadTime).toHaveText(/^Your time is 1\d s behind lead’s$/);
    await runUntil(devices, 10, 'the lead is told of Two’s', async () => /TWO’S TIME IS 1\d s BEHIND YOURS: CALL TWO/.test(await nearOf(lead).innerText()));
    expect(await nearOf(two).innerText()).toBe('');
    await two.page.getByRole('button', { name: 'Use lead’s time' }).click();
    await runUntil(devices, 10, 'both fly by one time', async () => (await nearOf(lead).innerText()) === '' && (await nearOf(two).innerText()) === '');
    expect(await leadTime.count()).toBe(0);
    await runUntil(devices, 300, 'the lead has found the wind', async () => /Found \d{3} \d{3} \d/.test(await hungOf(lead).innerText()), 5);
    expect([await valueOf(lead), await valueOf(two)]).toEqual(['as briefed', 'as briefed']);

    await lead.page.getByRole('button', { name: 'Hang it' }).click();
    await runUntil(devices, 10, 'Two hangs it as the lead does', async () => (await valueOf(two)) === (await valueOf(lead)));
    expect(await valueOf(lead)).toMatch(/^for \d{3} \d{3} \d$/);
    await expect(hungOf(two)).toContainText('by lead');

    await two.page.getByRole('button', { name: 'Refuse: as briefed' }).click();
    await expect(hungOf(two)).toHaveAttribute('data-apart', 'yes');
    await runUntil(devices, 20, 'the lead is told of the refusal', async () => (await nearOf(lead).innerText()).includes('TWO REFUSED: HANGS'));
    // What was told again and again moves nothing that the pilot has refused.
    two.wire.replay();
    await run(devices, 5);
    expect(await valueOf(two)).toBe('as briefed');
    await two.page.getByRole('button', { name: 'As lead' }).click();
    await expect(hungOf(two)).toHaveAttribute('data-apart', 'no');
    await runUntil(devices, 10, 'the lead is told nothing more', async () => (await nearOf(lead).innerText()) === '');

    await two.page.reload();
    await runUntil(devices, 30, 'Two is there again', async () => (await hungOf(two).count()) > 0 && (await valueOf(two)) === (await valueOf(lead)));

    await runUntil(devices, 700, 'both have laid smoke', async () => (await smokeTold(lead)) > 0 && (await smokeTold(two)) > 0, 5);
    const hung = await Promise.all(devices.map(async (device) => (await eventsTold<Extract<LinkEvent, { kind: 'hung' }>>(device, 'hung')).at(-1)));
    const places = hung.map((each) => [each?.movedEastMetres ?? NaN, each?.movedNorthMetres ?? NaN]);
    expect(places[1]).toEqual(places[0]);
    const movedMetres = Math.hypot(...(places[0] as [number, number]));
    expect(movedMetres).toBeGreaterThan(1000);
    const [one, other] = await Promise.all(devices.map(firstSmokeOff));
    const wind = windVectorFrom({ fromRadians: radiansFromDegrees(REAL_WIND.fromDegrees), speedMetresPerSecond: metresPerSecondFromKnots(REAL_WIND.knots) });
    const seconds = (other!.atMilliseconds - one!.atMilliseconds) / 1000;
    const apart = Math.hypot(
      other!.eastMetres - one!.eastMetres - wind.eastMetresPerSecond * seconds,
      other!.northMetres - one!.northMetres - wind.northMetresPerSecond * seconds,
    );
    expect(apart).toBeLessThan(SAME_PLACE_METRES);
  } finally {
    await Promise.all(devices.map(({ context }) => context.close()));
    await Promise.all(devices.map(({ wire }) => wire.close()));
    await broker.stop();
  }
});
