import type { Page } from '@playwright/test';
import { CUE_NAMES } from '../src/ui/write/cue-values.ts';
import { ordersFor, startFlight, wordJob } from './flight/fly-word.ts';
import type { PilotOrders } from './flight/pilot-in-page.ts';
import { pageScript } from './flight/pilot-script.ts';

/** Least pixels of 20 mm and of 8 mm: 132 CSS pixels an inch, the least that 10-inch tablets show. */
export const TWENTY_MILLIMETRES = Math.round((20 / 25.4) * 132);
export const EIGHT_MILLIMETRES = Math.round((8 / 25.4) * 132);

export const SIZES = [
  { width: 1024, height: 768 },
  { width: 768, height: 1024 },
  { width: 390, height: 844 },
  { width: 320, height: 640 },
  { width: 844, height: 390 },
] as const;

/** The machine values of the cue contract as the page shows them; fails unless each stands there once. */
export async function shownCues(page: Page): Promise<Record<string, string>> {
  const found = await page
    .locator('[data-cue]')
    .evaluateAll((elements) => elements.map((element) => [element.getAttribute('data-cue') ?? '', element.getAttribute('data-value') ?? 'missing'] as const));
  const names = found.map(([name]) => name).sort();
  if (names.join() !== [...CUE_NAMES, 'said'].sort().join()) throw new Error(`the contract's elements are ${names.join()}`);
  return Object.fromEntries(found);
}

/** Opens a flight of the device on a faked clock with the simulated pilot at the stick. */
export async function beginDeviceFlight(
  page: Page,
  word = 'SKY',
  change: (orders: PilotOrders) => PilotOrders = (orders) => orders,
  choose: (page: Page) => Promise<void> = async () => {},
): Promise<void> {
  await page.clock.install({ time: Date.UTC(2027, 5, 19, 17, 0) });
  await page.addInitScript({ content: await pageScript('pilot-in-page') });
  const job = wordJob(word);
  await startFlight(page, job);
  await choose(page);
  await page.getByRole('button', { name: 'Start flight' }).click();
  await holdClock(page);
  await page.evaluate((given) => window.flightPilot.begin(given), change(ordersFor(job, 4, 10)));
}

/** Holds a faked clock where it is: from now on only what a test runs for passes. */
export async function holdClock(page: Page): Promise<void> {
  await page.clock.pauseAt((await page.evaluate(() => Date.now())) + 1000);
}

/**
 * Lets go on what waits for the page's timers while the clock is held: a little of the flight at a time, however long it keeps
 * the page busy. On a clock of the room a busy page of a slow machine loses its fixes, and what is looked at closes.
 */
export async function meanwhile<Result>(page: Page, work: Promise<Result>): Promise<Result> {
  let ended = false;
  const result = work.finally(() => (ended = true));
  result.catch(() => {});
  while (!ended) {
    await page.clock.runFor(20);
    await page.waitForTimeout(20);
  }
  return result;
}

/** Flies on until the cues are as wanted; fails after so many seconds of flight. */
export async function flyUntil(page: Page, wanted: (cues: Record<string, string>) => boolean, longestSeconds = 600): Promise<Record<string, string>> {
  for (let flown = 0; flown < longestSeconds; flown += 1) {
    await page.clock.runFor(1000);
    const cues = await shownCues(page);
    if (wanted(cues)) return cues;
  }
  throw new Error(`not within ${longestSeconds} s of flight: ${JSON.stringify(await shownCues(page))}`);
}

/** Opens the demo job's start panel. */
export async function openStartPanel(page: Page): Promise<void> {
  await page.goto('./#/write/lake-ondine');
  await page.getByRole('button', { name: /^Start/ }).waitFor();
}

/** Starts the demo job's rehearsal at a speed; the clock is the room's unless the test has faked it. */
export async function beginRehearsal(page: Page, speed: number): Promise<void> {
  await openStartPanel(page);
  await page.getByLabel(/^Pace/).fill(String(speed));
  await page.getByRole('button', { name: 'Start rehearsal' }).click();
}
