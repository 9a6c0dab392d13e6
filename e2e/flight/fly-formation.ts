import type { Browser } from '@playwright/test';
import type { Job } from '../../src/core/job/job.ts';
import { planJob } from '../../src/core/plan/plan-job.ts';
import { byFastClock, flyToEnd, ordersFor, startFlight, wordJob } from './fly-word.ts';
import { nearestAtOneHeight } from '../../tests/flight/judge-separation.ts';
import { uniformFrom } from '../../tests/flight/random.ts';
import type { PilotReport } from './pilot-in-page.ts';

/** What the ships of one formation truly did, each flown by a page of its own without a link. */
export interface FormationReport {
  readonly reports: readonly PilotReport[];
  /** Nearest any two truly came within 300 ft of each other's height, from the first fix until one of the two had left. */
  readonly nearestMetres: number;
}

const FIRST_SMOKE_AFTER_CALL_SECONDS = 600;
/** How long after the call each pilot presses: up to 2 s apart. */
const PRESSES_AFTER_SECONDS = [1, 0.1, 2.1];
/** Ships come from anywhere within this of the site. */
const ANYWHERE_METRES = 8000;
const FEET_PER_METRE = 1 / 0.3048;

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
    planned.value.plan.ships.map(async ({ shipIndex, ownHeightStepMetres }) => {
      const context = await browser.newContext({ baseURL: process.env['QUILLWIND_URL']!, permissions: ['geolocation', 'screen-wake-lock'] });
      const page = await context.newPage();
      for (const content of scripts) await page.addInitScript({ content });
      await startFlight(page, job);
      await page.getByLabel('This ship is').selectOption(String(shipIndex));
      await page.getByRole('radio', { name: /Time hack/ }).check();
      await page.getByLabel('First smoke after the call').selectOption(String(FIRST_SMOKE_AFTER_CALL_SECONDS));
      const orders = ordersFor(job, seed, forecastErrorKnots);
      const next = uniformFrom(seed * 101 + shipIndex);
      for (let drawn = 0; drawn < 5; drawn += 1) next();
      const away = ANYWHERE_METRES * Math.sqrt(next());
      const bearing = 2 * Math.PI * next();
      const world = {
        ...orders.world,
        seed: seed * 10 + shipIndex,
        windSeed: seed,
        rollRateDegreesPerSecond: 25 + 35 * next(),
        reactionSeconds: 0.3 + 0.9 * next(),
        startEastMetres: away * Math.sin(bearing),
        startNorthMetres: away * Math.cos(bearing),
        startHeadingDegrees: 360 * next(),
      };
      const height = {
        cardFeet: job.layer.altitudeFeet + (ownHeightStepMetres ?? 0) * FEET_PER_METRE,
        climbFeetPerMinute: 700,
        descentFeetPerMinute: 1500,
        reactionSeconds: 1,
      };
      const report = await flyToEnd(
        page,
        { ...orders, world, height, keepsTrack: true },
        byFastClock,
        PRESSES_AFTER_SECONDS[shipIndex % PRESSES_AFTER_SECONDS.length]!,
      );
      await context.close();
      return report;
    }),
  );
  // All began at the call, in air that has drifted alike, so equal times and air coordinates belong together.
  const tracks = reports.map(({ track }) =>
    track.map(({ atSeconds, airEastMetres, airNorthMetres, heightFeet }) => ({
      atSeconds,
      eastMetres: airEastMetres,
      northMetres: airNorthMetres,
      heightFeet,
    })),
  );
  return { reports, nearestMetres: nearestAtOneHeight(tracks, Infinity)?.metres ?? Infinity };
}
