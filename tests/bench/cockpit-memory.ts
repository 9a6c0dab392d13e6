import { chromium, type CDPSession } from '@playwright/test';
import { findChromium } from '../../.ci/chromium.mjs';
import { byFastClock, ordersFor, startFlight, wordJob } from '../../e2e/flight/fly-word.ts';
import { pageScript } from '../../e2e/flight/pilot-script.ts';
import serveDist from '../../e2e/serve-dist.ts';

/** Heap in use after a collection, at some times of one long flight. */
export interface FlightMemory {
  readonly atMinutes: readonly number[];
  readonly heapMegabytes: readonly number[];
}

const MINUTES = [20, 60, 100, 140, 180];

/**
 * Three hours in the air in the built app of `dist/`, waiting for a first smoke that is timed for later still: fixes
 * once a second, the way re-solved at every one, every event logged.
 */
export async function measureFlightMemory(): Promise<FlightMemory> {
  const endServing = await serveDist();
  const browser = await chromium.launch({ executablePath: findChromium() ?? 'chromium', args: process.getuid?.() === 0 ? ['--no-sandbox'] : [] });
  try {
    const context = await browser.newContext({ baseURL: process.env['QUILLWIND_URL']!, permissions: ['geolocation', 'screen-wake-lock'] });
    const page = await context.newPage();
    for (const name of ['fast-clock', 'pilot-in-page'] as const) await page.addInitScript({ content: await pageScript(name) });
    const job = wordJob('SKY');
    await startFlight(page, job);
    await page.getByRole('radio', { name: /At a time/ }).check();
    await page.getByLabel(/First smoke at/).fill(inFourHours());
    await byFastClock(page, 1);
    await page.getByRole('button', { name: /^Start flight/ }).click();
    await page.evaluate((orders) => window.flightPilot.begin(orders), ordersFor(job, 4, 10));
    const session = await context.newCDPSession(page);
    const heapMegabytes: number[] = [];
    let flownMinutes = 0;
    for (const minutes of MINUTES) {
      for (; flownMinutes < minutes; flownMinutes += 1) await byFastClock(page, 60_000);
      heapMegabytes.push(await heapInUse(session));
    }
    return { atMinutes: MINUTES, heapMegabytes };
  } finally {
    await browser.close();
    await endServing();
  }
}

function inFourHours(): string {
  const date = new Date(Date.now() + 4 * 3_600_000);
  const pad = (value: number): string => String(value).padStart(2, '0');
  return `${date.getFullYear()}-${pad(date.getMonth() + 1)}-${pad(date.getDate())}T${pad(date.getHours())}:${pad(date.getMinutes())}:${pad(date.getSeconds())}`;
}

async function heapInUse(session: CDPSession): Promise<number> {
  await session.send('HeapProfiler.collectGarbage');
  await session.send('HeapProfiler.collectGarbage');
  const { usedSize } = await session.send('Runtime.getHeapUsage');
  return usedSize / 1e6;
}
