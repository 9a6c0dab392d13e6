import type { Browser } from '@playwright/test';
import type { Job } from '../../src/core/job/job.ts';
import { planJob } from '../../src/core/plan/plan-job.ts';
import { byFastClock, flyToEnd, ordersFor, startFlight, wordJob } from './fly-word.ts';
import type { PilotReport, TrackPoint } from './pilot-in-page.ts';

/** What the ships of one formation truly did, each flown by a page of its own without a link. */
export interface FormationReport {
  readonly reports: readonly PilotReport[];
  /** Nearest any two truly came from a minute before the first smoke on, until one of the two was done. */
  readonly nearestMetres: number;
}

const FIRST_SMOKE_AFTER_CALL_SECONDS = 180;
/** How long after the call each pilot presses: up to 2 s apart. */
const PRESSES_AFTER_SECONDS = [1, 0.1, 2.1];
const WATCHED_BEFORE_SMOKE_SECONDS = 60;

/** A job of the demo's with another word and three ships alike. */
export function formationJob(word: string): Job {
  const job = wordJob(word);
  const [lead] = job.ships;
  return { ...job, id: `three-${word.toLowerCase()}`, name: `Three ships, ${word}`, ships: ['Lead', 'Two', 'Three'].map((name) => ({ ...lead!, name })) };
}

/**
 * Flies the ships of a job in pages that know nothing of each other: they take the time hack on a radio call, to which
 * the pilots' hands are up to 2 s apart, and share nothing but the air. Scripts: `pilot-in-page` and `fast-clock`.
 */
export async function flyFormationInPages(
  browser: Browser,
  scripts: readonly string[],
  job: Job,
  seed: number,
  forecastErrorKnots: number,
): Promise<FormationReport> {
  const planned = planJob(job);
  if (!planned.ok) throw new Error(`${job.text} has no plan: ${JSON.stringify(planned.problem)}`);
  const reports = await Promise.all(
    planned.value.plan.ships.map(async ({ shipIndex, joinUp, legs }) => {
      const context = await browser.newContext({ baseURL: process.env['QUILLWIND_URL']!, permissions: ['geolocation', 'screen-wake-lock'] });
      const page = await context.newPage();
      for (const content of scripts) await page.addInitScript({ content });
      await startFlight(page, job);
      await page.getByLabel('This ship is').selectOption(String(shipIndex));
      await page.getByRole('radio', { name: /Time hack/ }).check();
      await page.getByLabel('First smoke after the call').selectOption(String(FIRST_SMOKE_AFTER_CALL_SECONDS));
      const orders = ordersFor(job, seed, forecastErrorKnots);
      // Before the datum a ship waits about where its circle will be, carried back by the wind of those minutes.
      const waits = joinUp?.holdCentre ?? legs[0]!.path.start;
      const world = {
        ...orders.world,
        seed: seed * 10 + shipIndex,
        windSeed: seed,
        startEastMetres: waits.airEastMetres - FIRST_SMOKE_AFTER_CALL_SECONDS * orders.world.windEastMetresPerSecond,
        startNorthMetres: waits.airNorthMetres - FIRST_SMOKE_AFTER_CALL_SECONDS * orders.world.windNorthMetresPerSecond,
      };
      const report = await flyToEnd(
        page,
        { ...orders, world, keepsTrack: true },
        byFastClock,
        PRESSES_AFTER_SECONDS[shipIndex % PRESSES_AFTER_SECONDS.length]!,
      );
      await context.close();
      return report;
    }),
  );
  const from = FIRST_SMOKE_AFTER_CALL_SECONDS - WATCHED_BEFORE_SMOKE_SECONDS;
  return { reports, nearestMetres: nearestOf(reports.map(({ track }) => track.filter(({ atSeconds, done }) => atSeconds >= from && !done))) };
}

/** All began at the call, in air that has drifted alike, so equal times and air coordinates belong together. */
function nearestOf(tracks: readonly (readonly TrackPoint[])[]): number {
  const byTime = tracks.map((track) => new Map(track.map((point) => [Math.round(point.atSeconds * 10), point])));
  let nearest = Infinity;
  for (const [index, one] of byTime.entries()) {
    for (const other of byTime.slice(index + 1)) {
      for (const [tenths, here] of one) {
        const there = other.get(tenths);
        if (there !== undefined) nearest = Math.min(nearest, Math.hypot(here.airEastMetres - there.airEastMetres, here.airNorthMetres - there.airNorthMetres));
      }
    }
  }
  return nearest;
}
