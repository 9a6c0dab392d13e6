import { chromium } from '@playwright/test';
import { fc } from '../property.ts';
import { findChromium } from '../../.ci/chromium.mjs';
import serveDist from '../../e2e/serve-dist.ts';
import { openJobs, putRaw } from '../../e2e/stored-jobs.ts';
import { DEMO_JOB } from '../../src/core/job/demo-job.ts';
import type { Job } from '../../src/core/job/job.ts';
import { planJob } from '../../src/core/plan/plan-job.ts';
import { writeJob } from '../../src/core/job/write-job.ts';
import open from '../reference/words-open.json' with { type: 'json' };

export interface ReadingOnScreens {
  readonly text: string;
  readonly draw: string | null;
  readonly brief: string | null;
  readonly ground: string | null;
  readonly debrief: string | null;
}

const WAIT_MILLISECONDS = 20_000;

/** Jobs like the demo's with other words, sizes, winds, layers, haze, facings and ships. */
function randomJobs(count: number, seed: number): Job[] {
  const words = (open.words as readonly string[]).filter((word) => word.length <= 6);
  const jobs = fc.record({
    text: fc.constantFrom(...words),
    heightFeet: fc.integer({ min: 3600, max: 5200 }),
    fromDegreesTrue: fc.integer({ min: 0, max: 359 }),
    speedKnots: fc.integer({ min: 3, max: 28 }),
    altitudeFeet: fc.integer({ min: 8000, max: 12_000 }),
    visibilityStatuteMiles: fc.option(fc.integer({ min: 3, max: 40 })),
    facingDegreesTrue: fc.integer({ min: 0, max: 359 }),
    ships: fc.constantFrom(1, 1, 2),
  });
  const drawnJobs = fc.sample(jobs, { numRuns: 3 * count, seed }).map((drawn, index) => ({
    ...DEMO_JOB,
    id: `reading-${index}`,
    name: `Reading ${index}`,
    text: drawn.text,
    facingDegreesTrue: drawn.facingDegreesTrue,
    layer: { ...DEMO_JOB.layer, altitudeFeet: drawn.altitudeFeet },
    letters: { ...DEMO_JOB.letters, heightFeet: drawn.heightFeet },
    winds: DEMO_JOB.winds.map((row, at) => ({ ...row, fromDegreesTrue: (drawn.fromDegreesTrue + 10 * at) % 360, speedKnots: drawn.speedKnots + 2 * at })),
    conditions: { altimeterHectopascals: null, visibilityStatuteMiles: drawn.visibilityStatuteMiles, clouds: null },
    ships: Array.from({ length: drawn.ships }, (_, ship) => ({ ...DEMO_JOB.ships[0]!, name: ['Lead', 'Two'][ship]! })),
  }));
  // A word too small to fly has no reading on any screen.
  return drawnJobs.filter((job) => planJob(job).ok).slice(0, count);
}

/** How long each job reads as four screens of the built app say it, the smoke measured once before; null where one says nothing. */
export async function readingsOnScreens(count: number, seed: number): Promise<ReadingOnScreens[]> {
  const endServing = await serveDist();
  const browser = await chromium.launch({ executablePath: findChromium() ?? 'chromium', args: process.getuid?.() === 0 ? ['--no-sandbox'] : [] });
  try {
    const page = await browser.newPage();
    const address = process.env['QUILLWIND_URL']!;
    await openJobs(page, address);
    await page.evaluate(
      () =>
        new Promise<void>((resolve, reject) => {
          const request = indexedDB.open('quillwind');
          request.onerror = () => reject(request.error);
          request.onsuccess = () => {
            const transaction = request.result.transaction('settings', 'readwrite');
            transaction.objectStore('settings').put({ horizontalSquareMetresPerSecond: 13, sigmaSquareMetresPerSecond: 2 }, 'smoke-calibration');
            transaction.oncomplete = () => {
              request.result.close();
              resolve();
            };
          };
        }),
    );
    const jobs = randomJobs(count, seed);
    for (const job of jobs) await putRaw(page, 'jobs', { id: job.id, name: job.name, fileText: writeJob(job), savedAtMilliseconds: 1 });
    const said = async (screen: string, job: Job, selector: string, attribute: string): Promise<string | null> => {
      await page.goto(`${address}#/${screen}/${job.id}`);
      await page.reload();
      const element = page.locator(selector);
      if (screen === 'brief') await page.getByRole('button', { name: 'Client' }).click();
      const deadline = Date.now() + WAIT_MILLISECONDS;
      while (Date.now() < deadline) {
        const value = await element
          .first()
          .getAttribute(attribute, { timeout: WAIT_MILLISECONDS })
          .catch(() => null);
        if (value !== null && value !== '') return value;
        await page.waitForTimeout(50);
      }
      return null;
    };
    const found: ReadingOnScreens[] = [];
    for (const job of jobs) {
      found.push({
        text: job.text,
        draw: await said('draw', job, '[data-figure="reads"]', 'data-value'),
        brief: await said('brief', job, '[data-figure="reads"]', 'data-value'),
        ground: await said('ground', job, '.ground', 'data-reads'),
        debrief: await said('debrief', job, '.debrief', 'data-reads'),
      });
    }
    return found;
  } finally {
    await browser.close();
    await endServing();
  }
}
