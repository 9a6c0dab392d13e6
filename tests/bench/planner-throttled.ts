import { fileURLToPath } from 'node:url';
import { chromium, type Page } from '@playwright/test';
import { build } from 'vite';
import { findChromium } from '../../.ci/chromium.mjs';
import words from '../reference/words-open.json' with { type: 'json' };
import type { PlannerPage } from './planner-page.ts';
import { median } from './planner-measures.ts';

const GROUPS = [
  { name: '3 to 5 letters', limitSeconds: 0.3, texts: words.words.filter((word) => word.length <= 5).slice(0, 12) },
  { name: '14 letters', limitSeconds: 1, texts: ['KINDNESS SPRING', 'DOLPHIN DIAMOND', 'RESPECT WELCOME'] },
  { name: '20 letters', limitSeconds: 3, texts: ['RAINBOW WELCOME SPRING', 'BIRTHDAY KINDNESS OPEN'] },
];
/** As slow as a tablet that is four times slower than this machine. */
const THROTTLING = 4;

async function plannerScript(): Promise<string> {
  const built = await build({
    configFile: false,
    logLevel: 'silent',
    build: { write: false, target: 'es2023', lib: { entry: fileURLToPath(new URL('planner-page.ts', import.meta.url)), formats: ['iife'], name: 'planner' } },
  });
  const [bundle] = Array.isArray(built) ? built : [built];
  if (bundle === undefined || !('output' in bundle)) throw new Error('the planner was not built');
  return bundle.output[0].code;
}

const planSeconds = (page: Page, text: string): Promise<number> =>
  page.evaluate((wanted) => (globalThis as unknown as { plannerPage: PlannerPage }).plannerPage.planSeconds(wanted), text);

/**
 * Prints the wall time of planning in a browser, plain and throttled to a quarter by the DevTools protocol, against
 * four times the limits of this machine.
 */
export async function benchPlannerThrottled(): Promise<void> {
  const script = await plannerScript();
  const browser = await chromium.launch({ executablePath: findChromium() ?? 'chromium', args: process.getuid?.() === 0 ? ['--no-sandbox'] : [] });
  try {
    const page = await browser.newPage();
    await page.addScriptTag({ content: script });
    const session = await page.context().newCDPSession(page);
    await planSeconds(page, 'WARM');
    for (const { name, limitSeconds, texts } of GROUPS) {
      const medians: number[] = [];
      for (const rate of [1, THROTTLING]) {
        await session.send('Emulation.setCPUThrottlingRate', { rate });
        const seconds: number[] = [];
        for (const text of texts) seconds.push(await planSeconds(page, text));
        medians.push(median(seconds));
      }
      const [plain = NaN, throttled = NaN] = medians;
      const limit = THROTTLING * limitSeconds;
      if (throttled > limit) process.exitCode = 1;
      console.log(
        `${name}: ${plain.toFixed(2)} s, throttled ${THROTTLING} times ${throttled.toFixed(2)} s, at most ${limit.toFixed(1)} s: ${throttled <= limit ? 'OK' : 'SHORT'}`,
      );
    }
  } finally {
    await browser.close();
  }
}
