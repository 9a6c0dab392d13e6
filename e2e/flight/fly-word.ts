import { expect, type Page } from '@playwright/test';
import { DEMO_JOB } from '../../src/core/job/demo-job.ts';
import type { Job } from '../../src/core/job/job.ts';
import { writeJob } from '../../src/core/job/write-job.ts';
import { trueVariationDegrees } from '../../tests/flight/true-variation.ts';
import { openJobs } from '../stored-jobs.ts';
import type {} from './fast-clock.ts';
import type { PilotOrders, PilotReport } from './pilot-in-page.ts';

const METRES_PER_FOOT = 0.3048;
const METRES_PER_SECOND_PER_KNOT = 1852 / 3600;

/** A job of the demo's with another word, and the wind that is forecast for its layer: 75 degrees, 12.5 kt at 10,500 ft. */
export function wordJob(word: string): Job {
  return { ...DEMO_JOB, id: `word-${word.toLowerCase()}`, name: `Word ${word}`, text: word, ships: DEMO_JOB.ships.slice(0, 1) };
}

/**
 * Orders for a simulated pilot whose true wind differs from the forecast by so many knots, to a side set by the seed:
 * across or stronger, never so that the true wind is hardly any, which ground-fixed letters would survive.
 */
export function ordersFor(
  job: Job,
  seed: number,
  forecastErrorKnots: number,
  lossAfterSeconds = { reposition: Infinity, stroke: Infinity },
  lossesEvery: PilotOrders['lossesEvery'] = null,
): PilotOrders {
  const ship = job.ships[0]!;
  const from = (75 * Math.PI) / 180;
  // The forecast blows towards 255 degrees, which is 195 anticlockwise from east; the error points within 100 degrees of that.
  const error = ((195 + 100 * Math.sin(seed * 2.4)) * Math.PI) / 180;
  const forecast = 12.5 * METRES_PER_SECOND_PER_KNOT;
  const wrong = forecastErrorKnots * METRES_PER_SECOND_PER_KNOT;
  return {
    world: {
      seed,
      windEastMetresPerSecond: -forecast * Math.sin(from) + wrong * Math.cos(error),
      windNorthMetresPerSecond: -forecast * Math.cos(from) + wrong * Math.sin(error),
      windWanderSigma: 1.5 * METRES_PER_SECOND_PER_KNOT,
      airspeedMetresPerSecond: ship.trueAirspeedKnots * METRES_PER_SECOND_PER_KNOT,
      airspeedWander: 0.03,
      reactionSeconds: 0.4,
      rollRateDegreesPerSecond: ship.rollRateDegreesPerSecond,
      valveOnSeconds: ship.valveOnSeconds,
      valveOffSeconds: ship.valveOffSeconds,
      fixIntervalSeconds: 1,
      fixNoiseMetres: 3,
      fixLatencySeconds: 0.7,
      startEastMetres: -4000 + 900 * (seed % 5),
      startNorthMetres: -3000 + 700 * (seed % 7),
      startHeadingDegrees: (seed * 77) % 360,
      variationDegrees: trueVariationDegrees(job.site, job.layer.altitudeFeet * METRES_PER_FOOT, Date.parse(job.readTime)),
    },
    site: {
      latitudeDegrees: job.site.latitudeDegrees,
      longitudeDegrees: job.site.longitudeDegrees,
      elevationMetres: job.site.elevationFeet * METRES_PER_FOOT,
    },
    layerHeightMetres: job.layer.altitudeFeet * METRES_PER_FOOT,
    lossAfterSeconds,
    lossesEvery,
    height: null,
    glanceSeconds: 0.1,
    keepsTrack: false,
  };
}

/** Stores the job as a user would, by importing its file, and opens its start with the device's positions; offline unless it has a link. */
export async function startFlight(page: Page, job: Job, linked = false): Promise<void> {
  await openJobs(page);
  await page.getByLabel('Job files to import').setInputFiles([{ name: 'job.json', mimeType: 'application/json', buffer: Buffer.from(writeJob(job)) }]);
  await expect(page.getByRole('article', { name: job.name })).toHaveCount(1);
  if (!linked) await page.context().setOffline(true);
  await page.goto(`./#/write/${job.id}`);
  await page.getByRole('radio', { name: /This device/ }).check();
}

/** Chooses a dark screen, on the ground. */
export async function chooseEars(page: Page): Promise<void> {
  await page.getByRole('checkbox', { name: /By ear/ }).check();
}

/** Advances the page's clock: Playwright's own, or the fast one of this folder. */
export type Advance = (page: Page, milliseconds: number) => Promise<void>;

export const byPlaywright: Advance = (page, milliseconds) => page.clock.runFor(milliseconds);
export const byFastClock: Advance = (page, milliseconds) => page.evaluate((span) => window.fastClock.advance(span), milliseconds);

/** Presses start. A pilot who presses late after the call is in the air for so many seconds before. */
export async function pressStart(page: Page, orders: PilotOrders, advance: Advance, pressesAfterSeconds = 0): Promise<void> {
  await advance(page, 1);
  const begin = (): Promise<void> => page.evaluate((given) => window.flightPilot.begin(given), orders);
  if (pressesAfterSeconds > 0) {
    await begin();
    await advance(page, pressesAfterSeconds * 1000);
  }
  await page.getByRole('button', { name: /^Start (flight|as )/ }).click();
  if (pressesAfterSeconds === 0) await begin();
}

/** Presses start, and flies for as long as it takes on the faked clock; returns what truly happened. */
export async function flyToEnd(page: Page, orders: PilotOrders, advance: Advance, longestSeconds = 3000): Promise<PilotReport> {
  await pressStart(page, orders, advance);
  for (let flown = 0; flown < longestSeconds; flown += 20) {
    await advance(page, 20_000);
    if (await page.evaluate(() => window.flightPilot.isFinished())) break;
  }
  return page.evaluate(() => window.flightPilot.report());
}
