import { readFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { type Browser, chromium } from '@playwright/test';
import { findChromium } from '../../.ci/chromium.mjs';
import { byFastClock, chooseEars, flyToEnd, ordersFor, startFlight, wordJob } from '../../e2e/flight/fly-word.ts';
import type { PilotOrders, PilotReport } from '../../e2e/flight/pilot-in-page.ts';
import { pageScript } from '../../e2e/flight/pilot-script.ts';
import type { Job } from '../../src/core/job/job.ts';
import serveDist from '../../e2e/serve-dist.ts';
import { drawPolylines } from '../flight/draw-strokes.ts';
import { uniformFrom } from '../flight/random.ts';
import { openTextReader, type TextReader } from '../flight/read-text.ts';
import { slippedSmoke } from '../flight/slipped-smoke.ts';
import { seenFromBelow } from '../flight/smoke-from-below.ts';

/** A word, as it was flown in a browser by the cue contract alone, and what the reader made of it. */
export interface FlownWord {
  readonly word: string;
  readonly report: PilotReport;
  readonly read: string;
  readonly readMirrored: string;
  /** The same strokes fixed to the ground. */
  readonly readGroundFixed: string;
}

export interface FlownWordsOptions {
  readonly forecastErrorKnots: number;
  readonly lossAfterSeconds?: { readonly reposition: number; readonly stroke: number };
  readonly seed: number;
  /** How many words to leave out, those flown in an earlier run; the others keep their seeds. */
  readonly from?: number;
  /** The world as it differs from the ordinary one, by the flight's own seed. */
  readonly world?: (seed: number) => Partial<PilotOrders['world']>;
  readonly lossesEvery?: PilotOrders['lossesEvery'];
  /** Who flies; an obedient eye where it is left out. */
  readonly pilot?: PilotOrders['pilot'];
  /** The job of a word; the demo's with that word where it is left out. */
  readonly job?: (word: string) => Job;
}

/** The open words, which an OCR engine reads as ideal strokes. */
export function openWords(): string[] {
  const file = new URL('../reference/words-open.json', import.meta.url);
  return (JSON.parse(readFileSync(file, 'utf8')) as { words: string[] }).words;
}

/** So many of the words, chosen by a seed. */
export function chosenWords(count: number, seed: number): string[] {
  const uniform = uniformFrom(seed);
  const words = openWords();
  const chosen: string[] = [];
  while (chosen.length < Math.min(count, openWords().length)) chosen.push(...words.splice(Math.floor(uniform() * words.length), 1));
  return chosen;
}

/** How many pages fly at once: one for each core. */
const PAGES_AT_ONCE = Math.max(1, Math.min(4, availableParallelism()));

/** A browser with the built app of `dist/` served to it, a reader, and what every page is given before it loads. */
export interface FlightBrowser {
  readonly browser: Browser;
  readonly reader: TextReader;
  readonly scripts: readonly string[];
}

/** Opens what flights in pages need, and closes it after the work. */
export async function inFlightBrowser<Found>(work: (opened: FlightBrowser) => Promise<Found>): Promise<Found> {
  const endServing = await serveDist();
  const reader = await openTextReader();
  const browser = await chromium.launch({ executablePath: findChromium() ?? 'chromium', args: process.getuid?.() === 0 ? ['--no-sandbox'] : [] });
  try {
    return await work({ browser, reader, scripts: [await pageScript('fast-clock'), await pageScript('pilot-in-page')] });
  } finally {
    await browser.close();
    await reader.close();
    await endServing();
  }
}

/** Flies words, each in a page of its own that is offline, and reads them from below. */
export async function flyWords(
  { browser, reader, scripts }: FlightBrowser,
  words: readonly string[],
  options: FlownWordsOptions,
  told: (flown: FlownWord) => void | Promise<void>,
): Promise<FlownWord[]> {
  const flown: FlownWord[] = [];
  const waiting = [...words.entries()].slice(options.from ?? 0);
  const flyThem = async (): Promise<void> => {
    for (let next = waiting.shift(); next !== undefined; next = waiting.shift()) {
      const [index, word] = next;
      const context = await browser.newContext({ baseURL: process.env['QUILLWIND_URL']!, permissions: ['geolocation', 'screen-wake-lock'] });
      const page = await context.newPage();
      for (const content of scripts) await page.addInitScript({ content });
      const job = (options.job ?? wordJob)(word);
      await startFlight(page, job);
      if (options.pilot === 'ear') await chooseEars(page);
      const seed = options.seed + index;
      const orders = ordersFor(job, seed, options.forecastErrorKnots, options.lossAfterSeconds, options.lossesEvery);
      const report = await flyToEnd(
        page,
        { ...orders, ...(options.pilot === undefined ? {} : { pilot: options.pilot }), world: { ...orders.world, ...options.world?.(seed) } },
        byFastClock,
      );
      await context.close();
      const picture = { letterHeightMetres: job.letters.heightFeet * 0.3048 };
      const seen = seenFromBelow(slippedSmoke(report.trails, report.atSeconds), job.facingDegreesTrue);
      const one: FlownWord = {
        word,
        report,
        read: (await reader.read(drawPolylines(seen, picture))).text,
        readMirrored: (await reader.read(drawPolylines(seen, { ...picture, mirrored: true }))).text,
        readGroundFixed: (await reader.read(drawPolylines(seenFromBelow(report.groundTrails, job.facingDegreesTrue), picture))).text,
      };
      flown.push(one);
      await told(one);
    }
  };
  await Promise.all(Array.from({ length: PAGES_AT_ONCE }, flyThem));
  return flown;
}
