import { type Browser, chromium } from '@playwright/test';
import { findChromium } from '../../.ci/chromium.mjs';
import { startFlight, wordJob } from '../../e2e/flight/fly-word.ts';
import serveDist from '../../e2e/serve-dist.ts';
import { placeOnEarth } from '../flight/place-on-earth.ts';
import { measureFlightMemory } from './cockpit-memory.ts';

const FIXES = 310;
const INTERVAL_MILLISECONDS = 125;
const AIRSPEED = 53.6;

/** As text: what tsx compiles carries helpers that a page does not have. */
const FIX_GIVER = `
const watchers = [];
const watch = (success) => watchers.push(success);
Object.defineProperty(navigator, 'geolocation', { value: { watchPosition: watch, getCurrentPosition: watch, clearWatch() {} } });
window.giveFix = async (latitude, longitude) => {
  const from = performance.now();
  const coords = { latitude, longitude, accuracy: 6, altitude: null, altitudeAccuracy: null, heading: null, speed: null };
  // The reducer and the signals run inside the callback; the document has changed when it and its microtasks end.
  for (const watcher of watchers) watcher({ coords, timestamp: Date.now() - 500 });
  await new Promise((resolve) => {
    const channel = new MessageChannel();
    channel.port1.onmessage = resolve;
    channel.port2.postMessage(0);
  });
  document.querySelector('[data-cue="heading"]').getBoundingClientRect();
  return performance.now() - from;
};`;

/** From a fix's arrival to its cue in the document, milliseconds, by how many times slower the processor was made. */
export type FixToCue = Readonly<Record<1 | 4, { readonly median: number; readonly high: number; readonly count: number }>>;

/**
 * Gate, filter, reduce and render of the built app in `dist/`, as the browser runs it and with the processor throttled
 * four times. Real time, eight fixes a second.
 */
export async function measureFixToCue(): Promise<FixToCue> {
  const endServing = await serveDist();
  const browser = await chromium.launch({ executablePath: findChromium() ?? 'chromium', args: process.getuid?.() === 0 ? ['--no-sandbox'] : [] });
  try {
    return { 1: await measure(browser, 1), 4: await measure(browser, 4) };
  } finally {
    await browser.close();
    await endServing();
  }
}

export async function benchCockpit(): Promise<void> {
  const { 1: plain, 4: throttled } = await measureFixToCue();
  console.log(`from fix to cue, unthrottled: median ${plain.median.toFixed(2)} ms, 99th percentile ${plain.high.toFixed(2)} ms (${plain.count} fixes)`);
  console.log(`from fix to cue, 4x throttled: median ${throttled.median.toFixed(2)} ms, 99th percentile ${throttled.high.toFixed(2)} ms, ${(throttled.median / plain.median).toFixed(1)} times the unthrottled median`);
  const { atMinutes, heapMegabytes } = await measureFlightMemory();
  console.log(`heap in use: ${atMinutes.map((minutes, index) => `${heapMegabytes[index]!.toFixed(1)} MB after ${minutes} min`).join(', ')}`);
}

async function measure(browser: Browser, rate: number): Promise<FixToCue[1]> {
  const context = await browser.newContext({ baseURL: process.env['QUILLWIND_URL']!, permissions: ['geolocation', 'screen-wake-lock'] });
  const page = await context.newPage();
  await page.addInitScript({ content: FIX_GIVER });
  const job = wordJob('SKY');
  await startFlight(page, job);
  await page.getByRole('button', { name: 'Start flight' }).click();
  const session = await context.newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate });
  const site = { latitudeDegrees: job.site.latitudeDegrees, longitudeDegrees: job.site.longitudeDegrees, elevationMetres: job.site.elevationFeet * 0.3048 };
  const taken: number[] = [];
  const startedAt = Date.now();
  for (let index = 0; index < FIXES; index += 1) {
    const seconds = (Date.now() - startedAt) / 1000;
    const place = placeOnEarth(-6000 + AIRSPEED * seconds, -1000, job.layer.altitudeFeet * 0.3048, site);
    taken.push(await page.evaluate(([latitude, longitude]) => (window as unknown as { giveFix(a: number, b: number): Promise<number> }).giveFix(latitude!, longitude!), [place.latitudeDegrees, place.longitudeDegrees]));
    await new Promise((resolve) => setTimeout(resolve, INTERVAL_MILLISECONDS));
  }
  await context.close();
  const sorted = taken.slice(10).sort((one, other) => one - other);
  return { median: sorted[Math.floor(sorted.length / 2)]!, high: sorted[Math.floor(sorted.length * 0.99)]!, count: sorted.length };
}
