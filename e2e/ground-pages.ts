import { type Browser, type BrowserContext, expect, type Page } from '@playwright/test';
import { DEMO_JOB } from '../src/core/job/demo-job.ts';
import type { Job } from '../src/core/job/job.ts';
import { writeJob } from '../src/core/job/write-job.ts';
import { passwordOf } from './ground-brokers.ts';
import type { GroundWire } from './ground-wire.ts';
import { allStored, openJobs } from './stored-jobs.ts';

/** Three letters for two ships. */
export const GROUND_JOB: Job = {
  ...DEMO_JOB,
  id: 'ground-test',
  name: 'Ground test',
  text: 'SKY',
  ships: [DEMO_JOB.ships[0]!, { ...DEMO_JOB.ships[0]!, name: 'Two' }],
};

/** Twelve minutes before the read time. */
const BEGIN = Date.parse(GROUND_JOB.readTime) - 720_000;
/** A clock can only be held at a time to come, which a busy machine may take seconds to say. */
const AHEAD_MILLISECONDS = 8000;

/** A device of its own: its storage, its clock, its page. */
export interface Device {
  readonly name: string;
  readonly page: Page;
  readonly context: BrowserContext;
  /** By which it reaches the broker. */
  readonly wire: GroundWire;
  readonly clockOffMilliseconds: number;
}

/**
 * A new device with the job on it; its clock is faked and may be wrong.
 *
 * @param wire by which it will reach the broker
 * @param beganMilliseconds by the real clock: devices that began together agree however long each took to open
 */
export async function openDevice(browser: Browser, name: string, wire: GroundWire, beganMilliseconds: number, clockOffMilliseconds = 0): Promise<Device> {
  const context = await browser.newContext({
    viewport: { width: 1024, height: 768 },
    ...(process.env['QUILLWIND_URL'] === undefined ? {} : { baseURL: process.env['QUILLWIND_URL'] }),
  });
  const page = await context.newPage();
  await page.clock.install({ time: BEGIN + Date.now() - beganMilliseconds + clockOffMilliseconds });
  await openJobs(page);
  await page.getByLabel('Job files to import').setInputFiles([{ name: 'job.json', mimeType: 'application/json', buffer: Buffer.from(writeJob(GROUND_JOB)) }]);
  await expect(page.getByRole('article', { name: GROUND_JOB.name })).toHaveCount(1);
  return { name, page, context, wire, clockOffMilliseconds };
}

/** Fills in the link, as a person does. */
export async function linkUp({ page, name }: Pick<Device, 'page' | 'name'>, address: string, button: string, password = passwordOf(name)): Promise<void> {
  await page
    .getByLabel(/^Address, from/)
    .first()
    .fill(address);
  await page.getByLabel('This device’s name there').fill(name);
  await page.getByLabel(/^Password/).fill(password);
  await page.getByRole('button', { name: button, exact: true }).click();
}

/** A ship that begins a rehearsal, linked. */
export async function flyShip(device: Device, shipIndex: number): Promise<void> {
  await readyShip(device, shipIndex);
  await startShip(device);
}

/** A ship on its start panel, linked, before the call. */
export async function readyShip(device: Device, shipIndex: number): Promise<void> {
  const { page } = device;
  await page.goto(`./#/write/${GROUND_JOB.id}`);
  await page.getByRole('button', { name: 'Start rehearsal' }).waitFor();
  if (GROUND_JOB.ships.length > 1) {
    await page.getByLabel('This ship is').selectOption(String(shipIndex));
    await page.getByRole('radio', { name: /Time hack/ }).check();
  }
  await linkUp(device, device.wire.address, 'Link this ship');
  await expect(page.locator('.ground-link')).toHaveAttribute('data-link', /./);
  await expect(page.getByRole('button', { name: 'Start rehearsal' })).toBeEnabled({ timeout: 30_000 });
}

/** On the call. */
export async function startShip({ page }: Device): Promise<void> {
  await page.getByRole('button', { name: 'Start rehearsal' }).click();
  await page.locator('[data-cue="phase"]').waitFor({ state: 'attached' });
}

/** An observer on the Ground screen, linked. */
export async function observe(device: Device): Promise<void> {
  const { page } = device;
  await page.goto(`./#/ground/${GROUND_JOB.id}`);
  await page.locator('.ground-letter').first().waitFor({ timeout: 30_000 });
  await linkUp(device, device.wire.address, 'Link up');
}

/** From here on the clocks of all devices move only together, by {@link run}. */
export async function holdClocks(devices: readonly Device[], beganMilliseconds: number): Promise<void> {
  const at = BEGIN + Date.now() - beganMilliseconds + AHEAD_MILLISECONDS;
  await Promise.all(devices.map(({ page, clockOffMilliseconds }) => page.clock.pauseAt(at + clockOffMilliseconds)));
}

/** Real time for what is on its way while the pages' clocks stand: at least, until the wires are so long idle, at most. */
const LEAST_MILLISECONDS = 25;
const IDLE_MILLISECONDS = 30;
const MOST_MILLISECONDS = 1500;

/** Until what the pages sent each other has come. */
export async function settled(devices: readonly Pick<Device, 'wire'>[]): Promise<void> {
  const end = performance.now() + MOST_MILLISECONDS;
  do await new Promise((resolve) => setTimeout(resolve, LEAST_MILLISECONDS));
  while (performance.now() < end && devices.some(({ wire }) => wire.idleMilliseconds() < IDLE_MILLISECONDS));
}

/** Lets all devices' clocks run on together, in steps; what is sent in a step arrives after it. */
export async function run(devices: readonly Device[], seconds: number, each?: (atSeconds: number) => Promise<void>, stepSeconds = 1): Promise<void> {
  for (let passed = stepSeconds; passed <= seconds; passed += stepSeconds) {
    await Promise.all(devices.map(({ page }) => page.clock.runFor(1000 * stepSeconds)));
    await settled(devices);
    await each?.(passed);
  }
}

/** Runs on until something holds; fails after so many seconds. */
export async function runUntil(
  devices: readonly Device[],
  longestSeconds: number,
  what: string,
  holds: () => Promise<boolean>,
  stepSeconds = 1,
): Promise<number> {
  for (let passed = 0; passed < longestSeconds; passed += stepSeconds) {
    if (await holds()) return passed;
    await run(devices, stepSeconds, undefined, stepSeconds);
  }
  throw new Error(`not within ${longestSeconds} s: ${what}`);
}

/** How far an observer trusts each ship's place, by device. */
export async function freshnessOf({ page }: Device): Promise<Readonly<Record<string, string>>> {
  const found = await page
    .locator('.ground-ships [data-ship]')
    .evaluateAll((elements) => elements.map((element) => [element.getAttribute('data-ship') ?? '', element.getAttribute('data-fresh') ?? ''] as const));
  return Object.fromEntries(found);
}

export async function linkOf({ page }: Device): Promise<string> {
  return (await page.locator('.ground-link').getAttribute('data-link')) ?? '';
}

/** What an observer has heard: events by boot, and how many in all were passed on. */
export async function heardBy({
  page,
}: Device): Promise<{ readonly boots: Readonly<Record<string, number>>; readonly beyond: number; readonly eventCount: number }> {
  const element = page.locator('[data-heard]');
  const heard = JSON.parse((await element.getAttribute('data-heard')) ?? '[]') as {
    readonly of: string;
    readonly contiguous: number;
    readonly beyond: number;
  }[];
  return {
    boots: Object.fromEntries(heard.map(({ of, contiguous }) => [of, contiguous])),
    beyond: heard.reduce((sum, { beyond }) => sum + beyond, 0),
    eventCount: Number(await element.getAttribute('data-event-count')),
  };
}

/** What a device has told, by `device/boot`, read from its outbox past the app. */
export async function toldBy({ page, name }: Device): Promise<Readonly<Record<string, number>>> {
  const counts: Record<string, number> = {};
  for (const { bootId, sequence } of await outboxOf(page)) counts[`${name}/${bootId}`] = Math.max(counts[`${name}/${bootId}`] ?? 0, sequence + 1);
  return counts;
}

/** Pieces of smoke that a ship has told. */
export async function smokeTold({ page }: Device): Promise<number> {
  return (await outboxOf(page)).filter(({ payloadText }) => payloadText.includes('"kind":"laid"')).length;
}

/** Pieces of smoke that an observer sees of each ship. */
export async function smokeShown({ page }: Device): Promise<Readonly<Record<string, number>>> {
  const found = await page
    .locator('.ground-ships [data-ship]')
    .evaluateAll((elements) => elements.map((element) => [element.getAttribute('data-ship') ?? '', Number(element.getAttribute('data-flown'))] as const));
  return Object.fromEntries(found);
}

/** All events of a kind that a ship has told. */
export async function eventsTold<Event>({ page }: Device, kind: string): Promise<Event[]> {
  return (await outboxOf(page)).map(({ payloadText }) => JSON.parse(payloadText) as Event & { readonly kind: string }).filter((event) => event.kind === kind);
}

interface ToldRow {
  readonly bootId: string;
  readonly sequence: number;
  readonly payloadText: string;
}

const outboxOf = async (page: Page): Promise<readonly ToldRow[]> => (await allStored(page, 'outbox')) as readonly ToldRow[];
