import { type Browser, chromium, type Page } from '@playwright/test';
import { findChromium } from '../../.ci/chromium.mjs';
import { putLog, storedLog } from '../../e2e/flown-log.ts';
import serveDist from '../../e2e/serve-dist.ts';
import { openJobs } from '../../e2e/stored-jobs.ts';
import { DEMO_JOB } from '../../src/core/job/demo-job.ts';
import { setupFor } from '../core/debrief/flown-word.ts';
import { longLog } from './long-log.ts';
import { median } from './planner-measures.ts';

const OPENINGS = 4;
const SCRUB_SECONDS = 4;

/** How the debrief of a long log stands up in the built app. */
export interface LongDebrief {
  /** From the call for the screen to the first picture with all ships, the processor not throttled. */
  readonly openMilliseconds: number;
  /** The same for the first time, when the log is read row by row. */
  readonly firstOpenMilliseconds: number;
  /** Frames a second while the moment moves at every frame, the processor made so many times slower. */
  readonly framesPerSecond: Readonly<Record<1 | 4, number>>;
}

/**
 * The built app of `dist/` with a flight of three hours, five fixes a second and every tick of the clock in its log, and
 * two imported tracks as long.
 */
export async function measureLongDebrief(): Promise<LongDebrief> {
  const endServing = await serveDist();
  const browser = await chromium.launch({ executablePath: findChromium() ?? 'chromium', args: process.getuid?.() === 0 ? ['--no-sandbox'] : [] });
  try {
    const page = await pageWithLongLogs(browser);
    const opened: number[] = [];
    for (let opening = 0; opening < OPENINGS; opening += 1) {
      opened.push(await openOnce(page));
      // The packing is stored after the picture stands.
      await page.waitForTimeout(3000);
    }
    const session = await page.context().newCDPSession(page);
    const plain = await framesPerSecond(page);
    await session.send('Emulation.setCPUThrottlingRate', { rate: 4 });
    const slow = await framesPerSecond(page);
    return { openMilliseconds: median(opened.slice(1)), firstOpenMilliseconds: opened[0]!, framesPerSecond: { 1: plain, 4: slow } };
  } finally {
    await browser.close();
    await endServing();
  }
}

export async function benchDebriefPage(): Promise<void> {
  const { openMilliseconds, firstOpenMilliseconds, framesPerSecond: frames } = await measureLongDebrief();
  console.log(
    `in the built app: opening ${openMilliseconds.toFixed(0)} ms to the first picture of three ships, ${firstOpenMilliseconds.toFixed(0)} ms the first time (aim: under 1000)`,
  );
  console.log(`scrubbing: ${frames[1].toFixed(0)} frames a second, ${frames[4].toFixed(0)} with the processor four times slower (aims: 60 and 30)`);
}

async function pageWithLongLogs(browser: Browser): Promise<Page> {
  const context = await browser.newContext({ baseURL: process.env['QUILLWIND_URL']!, viewport: { width: 1024, height: 768 } });
  const page = await context.newPage();
  await openJobs(page);
  await putLog(page, storedLog('long-flight', DEMO_JOB, longLog(0, setupFor('HI', { site: siteOfDemo() }), 1)));
  for (const index of [1, 2]) await putTrack(page, index);
  return page;
}

function siteOfDemo(): { latitudeDegrees: number; longitudeDegrees: number; elevationMetres: number } {
  const { latitudeDegrees, longitudeDegrees, elevationFeet } = DEMO_JOB.site;
  return { latitudeDegrees, longitudeDegrees, elevationMetres: elevationFeet * 0.3048 };
}

/** An imported track into the page's store, past the app. */
async function putTrack(page: Page, index: number): Promise<void> {
  const points = longLog(index, setupFor('HI', { site: siteOfDemo() })).flatMap((event) =>
    event.kind === 'fixReceived' ? [event.wallMilliseconds, event.fix.latitudeDegrees, event.fix.longitudeDegrees, 3200, -1] : [],
  );
  await page.evaluate(
    ([key, id, numbers]) =>
      new Promise<void>((resolve, reject) => {
        const open = indexedDB.open('quillwind');
        open.onsuccess = () => {
          const transaction = open.result.transaction('settings', 'readwrite');
          const store = transaction.objectStore('settings');
          const before = store.get(key);
          before.onsuccess = () => {
            const track = { id, name: id, heightsAbove: 'sea', segmentStarts: [0], points: Float64Array.from(numbers), shipIndex: null, seen: [] };
            store.put([...((before.result as unknown[] | undefined) ?? []), track], key);
          };
          transaction.oncomplete = () => {
            open.result.close();
            resolve();
          };
          transaction.onabort = () => reject(transaction.error);
        };
      }),
    [`tracks/${DEMO_JOB.id}`, `long-track-${index}`, points] as const,
  );
}

/** As text: what tsx compiles carries helpers that a page does not have. */
async function openOnce(page: Page): Promise<number> {
  await openJobs(page);
  return page.evaluate(`new Promise((resolve) => {
    const begun = performance.now();
    location.hash = '#/debrief/${DEMO_JOB.id}';
    const look = () => {
      if (document.querySelectorAll('.flown-view canvas').length > 0 && document.querySelector('.time-smoke')?.getAttribute('viewBox') === '0 0 100 48') requestAnimationFrame(() => resolve(performance.now() - begun));
      else requestAnimationFrame(look);
    };
    look();
  })`);
}

async function framesPerSecond(page: Page): Promise<number> {
  return page.evaluate(`new Promise((resolve) => {
    const scrub = document.querySelector('.scrub');
    const low = Number(scrub.min);
    const high = Number(scrub.max);
    const begun = performance.now();
    let frames = 0;
    const step = () => {
      const passed = (performance.now() - begun) / 1000;
      if (passed >= ${SCRUB_SECONDS}) return resolve(frames / passed);
      frames += 1;
      scrub.value = String(low + (high - low) * (0.5 + 0.5 * Math.sin(passed * 3)));
      scrub.dispatchEvent(new Event('input', { bubbles: true }));
      requestAnimationFrame(step);
    };
    requestAnimationFrame(step);
  })`);
}
