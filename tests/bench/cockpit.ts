import { type Browser, chromium } from '@playwright/test';
import { findChromium } from '../../.ci/chromium.mjs';
import { startFlight, wordJob } from '../../e2e/flight/fly-word.ts';
import serveDist from '../../e2e/serve-dist.ts';
import { placeOnEarth } from '../flight/place-on-earth.ts';
import { measureFlightMemory } from './cockpit-memory.ts';

const FIXES = 310;
const INTERVAL_MILLISECONDS = 125;
const AIRSPEED = 53.6;

/**
 * Two listeners of one message: the browser runs the microtasks of the first, and so the rendering, before it calls the
 * second (HTML, "clean up after running script"), and lets no frame and no tick in between, which are not the fix's.
 * As text: what tsx compiles carries helpers that a page does not have.
 */
const FIX_GIVER = `
const watchers = [];
const watch = (success) => watchers.push(success);
Object.defineProperty(navigator, 'geolocation', { value: { watchPosition: watch, getCurrentPosition: watch, clearWatch() {} } });
const { port1, port2 } = new MessageChannel();
const read = () => document.querySelector('[data-cue="heading"]').closest('section').outerHTML;
let before = '';
let from = 0;
let giveBack = () => {};
port1.addEventListener('message', ({ data: { latitude, longitude } }) => {
  before = read();
  from = performance.now();
  const coords = { latitude, longitude, accuracy: 6, altitude: null, altitudeAccuracy: null, heading: null, speed: null };
  for (const watcher of watchers) watcher({ coords, timestamp: Date.now() - 500 });
});
port1.addEventListener('message', () => {
  document.querySelector('[data-cue="heading"]').getBoundingClientRect();
  const milliseconds = performance.now() - from;
  giveBack({ milliseconds, drawn: read() !== before });
});
port1.start();
window.giveFix = (latitude, longitude) => new Promise((resolve) => {
  giveBack = resolve;
  port2.postMessage({ latitude, longitude });
});`;

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
  console.log(
    `from fix to cue, 4x throttled: median ${throttled.median.toFixed(2)} ms, 99th percentile ${throttled.high.toFixed(2)} ms, ${(throttled.median / plain.median).toFixed(1)} times the unthrottled median`,
  );
  const { atMinutes, heapMegabytes } = await measureFlightMemory();
  console.log(`heap in use: ${atMinutes.map((minutes, index) => `${heapMegabytes[index]!.toFixed(1)} MB after ${minutes} min`).join(', ')}`);
}

interface GivenFix {
  readonly milliseconds: number;
  /** Whether the screen was another one afterwards. */
  readonly drawn: boolean;
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
  const given: GivenFix[] = [];
  const startedAt = Date.now();
  for (let index = 0; index < FIXES; index += 1) {
    const seconds = (Date.now() - startedAt) / 1000;
    const place = placeOnEarth(-6000 + AIRSPEED * seconds, -1000, job.layer.altitudeFeet * 0.3048, site);
    given.push(
      await page.evaluate(
        ([latitude, longitude]) => (window as unknown as { giveFix(a: number, b: number): Promise<GivenFix> }).giveFix(latitude!, longitude!),
        [place.latitudeDegrees, place.longitudeDegrees],
      ),
    );
    await new Promise((resolve) => setTimeout(resolve, INTERVAL_MILLISECONDS));
  }
  await context.close();
  const counted = given.slice(10);
  // Every fix has an age to show: where nothing changed, nothing was measured.
  const drawn = counted.filter((fix) => fix.drawn).length;
  if (drawn < 0.9 * counted.length) throw new Error(`only ${drawn} of ${counted.length} fixes changed the screen`);
  const sorted = counted.map(({ milliseconds }) => milliseconds).sort((one, other) => one - other);
  return { median: sorted[Math.floor(sorted.length / 2)]!, high: sorted[Math.floor(sorted.length * 0.99)]!, count: sorted.length };
}
