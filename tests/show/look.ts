import { type Browser, chromium, type Page } from '@playwright/test';
import { findChromium } from '../../.ci/chromium.mjs';
import { accessibilityFindings } from '../../e2e/accessibility-findings.ts';
import serveDist from '../../e2e/serve-dist.ts';
import { openJobs, putRaw } from '../../e2e/stored-jobs.ts';
import { contrasts } from '../../e2e/write-contrast.ts';
import { newJob } from '../../src/app/jobs/new-job.ts';
import { DEMO_JOB } from '../../src/core/job/demo-job.ts';
import type { Job } from '../../src/core/job/job.ts';
import { writeJob } from '../../src/core/job/write-job.ts';
import type { Figure, Shown } from './figures.ts';
import { atLeast, atMost } from './limits.ts';
import { pageFaults } from './look-faults.ts';

const LAUNCH = { executablePath: findChromium() ?? 'chromium', args: ['--no-sandbox'] };
const SIZES = [
  [1024, 768],
  [768, 1024],
  [390, 844],
  [320, 640],
  [1366, 1024],
] as const;
const SCREENS = ['jobs', 'draw', 'brief', 'write', 'ground', 'debrief'] as const;
const APPEARANCES = ['day', 'night'] as const;
const SETTLED_MILLISECONDS = 1_200;

const AT_THE_EDGES: Job = {
  ...DEMO_JOB,
  id: 'edges',
  name: 'The longest text on two lines by three ships in a polar day',
  text: 'HAPPY BIRTHDAY\nGRANDMA',
  site: { ...DEMO_JOB.site, latitudeDegrees: 69.65, longitudeDegrees: 18.96, timeZone: 'Europe/Oslo', name: 'Northern pier with a name that is long' },
  ships: ['Lead', 'Two', 'Three'].map((name) => ({ ...DEMO_JOB.ships[0]!, name })),
};

/** What a tour of all screens found, by what it was looked for. */
interface Found {
  readonly sideways: string[];
  readonly cut: string[];
  readonly overlapping: string[];
  readonly small: string[];
  readonly axe: string[];
  readonly faint: string[];
  readonly shifts: { readonly where: string; readonly shift: number }[];
  pages: number;
}

/** Every screen in every size, by day and by night, with the demo, with a new job and at the edges: what a careful eye would object to. */
export async function showLook(): Promise<Shown> {
  const end = await serveDist();
  const address = process.env['QUILLWIND_URL'] ?? '';
  const browser = await chromium.launch(LAUNCH);
  const found: Found = { sideways: [], cut: [], overlapping: [], small: [], axe: [], faint: [], shifts: [], pages: 0 };
  try {
    for (const [width, height] of SIZES) {
      for (const appearance of APPEARANCES) {
        process.stdout.write(`      ${width} x ${height} by ${appearance}\n`);
        await tour(browser, address, { width, height }, appearance, found);
      }
    }
    await emulations(browser, address, found);
    const points = await smallestType(browser, address);
    for (const { where, shift } of found.shifts.toSorted((one, other) => other.shift - one.shift).slice(0, 12))
      process.stdout.write(`      shift ${shift.toFixed(3)} ${where}\n`);
    const worst = found.shifts.toSorted((one, other) => other.shift - one.shift)[0];
    return {
      figures: [
        none('pages that scroll sideways', found.sideways),
        none('words cut off', found.cut),
        none('controls that overlap', found.overlapping),
        none('controls under 44 pixels', found.small),
        none('findings of axe, WCAG 2.2 A to AAA, forced colours and more contrast among them', found.axe),
        none('words under 7:1', found.faint),
        atMost(`layout shift at the first load, the worst (${worst?.where ?? ''})`, worst?.shift ?? 0, 0.02, '', 3),
        atLeast('smallest type of a kneeboard card', points, 11, 'pt', 1),
      ],
      headline: `${found.pages} pages looked at: six screens, five sizes, by day and by night, with the demo, a new job and one at the edges.`,
    };
  } finally {
    await browser.close();
    await end();
  }
}

/** None is wanted; the first few are named. */
function none(name: string, these: readonly string[]): Figure {
  for (const each of [...new Set(these)].slice(0, 12)) process.stdout.write(`      ${name}: ${each}\n`);
  return atMost(name, these.length, 0, '', 0);
}

async function tour(browser: Browser, address: string, viewport: { width: number; height: number }, appearance: 'day' | 'night', found: Found): Promise<void> {
  const context = await browser.newContext({ baseURL: address, viewport, colorScheme: appearance === 'day' ? 'light' : 'dark' });
  const page = await context.newPage();
  // What runs this file names functions by a helper that a page does not have.
  await page.addInitScript('globalThis.__name ??= (named) => named');
  await openJobs(page);
  const empty = { ...newJob(Date.now(), 'Europe/Paris'), id: 'empty' };
  for (const job of [empty, AT_THE_EDGES]) await putRaw(page, 'jobs', { id: job.id, name: job.name, savedAtMilliseconds: 1, fileText: writeJob(job) });
  for (const jobId of [DEMO_JOB.id, empty.id, AT_THE_EDGES.id]) {
    for (const screen of SCREENS) {
      if (screen === 'jobs' && jobId !== DEMO_JOB.id) continue;
      const where = `${screen} of ${jobId} at ${viewport.width} by ${appearance}`;
      // Each is opened first: what another screen had loaded is not there.
      await page.goto('about:blank');
      await page.goto(`./#/${screen === 'jobs' ? 'jobs' : `${screen}/${jobId}`}`);
      await page.waitForLoadState('networkidle');
      await page.waitForTimeout(SETTLED_MILLISECONDS);
      found.pages += 1;
      const faults = await page.evaluate(pageFaults);
      const told = (list: string[], what: readonly string[]): void => void list.push(...what.map((each) => `${where}: ${each}`));
      told(found.sideways, faults.sideways);
      told(found.cut, faults.cut);
      told(found.overlapping, faults.overlapping);
      told(found.small, faults.small);
      found.shifts.push({ where, shift: await layoutShift(page) });
      const faint = (await contrasts(page, 'body')).filter(({ what, ratio }) => ratio < 7 && !what.startsWith('line of'));
      told(
        found.faint,
        faint.map(({ what, ratio }) => `${what} (${ratio.toFixed(1)})`),
      );
      // Findings do not depend on the width, but for what is hidden on the narrowest.
      if (viewport.width === 1024 || viewport.width === 320) told(found.axe, await accessibilityFindings(page));
    }
  }
  await context.close();
}

/** Axe over every screen with forced colours, dark and light, and with more contrast wanted. */
async function emulations(browser: Browser, address: string, found: Found): Promise<void> {
  const context = await browser.newContext({ baseURL: address, viewport: { width: 1024, height: 768 } });
  const page = await context.newPage();
  // What runs this file names functions by a helper that a page does not have.
  await page.addInitScript('globalThis.__name ??= (named) => named');
  await openJobs(page);
  const wanted = [
    { forcedColors: 'active', colorScheme: 'dark' },
    { forcedColors: 'active', colorScheme: 'light' },
    { contrast: 'more', colorScheme: 'light' },
  ] as const;
  for (const media of wanted) {
    await page.emulateMedia(media);
    for (const screen of SCREENS) {
      await page.goto(`./#/${screen === 'jobs' ? 'jobs' : `${screen}/${DEMO_JOB.id}`}`);
      await page.waitForTimeout(SETTLED_MILLISECONDS);
      found.pages += 1;
      found.axe.push(...(await accessibilityFindings(page)).map((each) => `${screen}, ${JSON.stringify(media)}: ${each}`));
    }
  }
  await context.close();
}

/** How far the page's parts moved since it was opened, as browsers add it up (Layout Instability API). */
function layoutShift(page: Page): Promise<number> {
  return page.evaluate(
    () =>
      new Promise<number>((resolve) => {
        let sum = 0;
        new PerformanceObserver((list) => {
          for (const entry of list.getEntries()) sum += (entry as PerformanceEntry & { readonly value: number }).value;
        }).observe({ type: 'layout-shift', buffered: true });
        setTimeout(() => resolve(sum), 150);
      }),
  );
}

/** The smallest type of the demo's cards and of those at the edges, in points. */
async function smallestType(browser: Browser, address: string): Promise<number> {
  const context = await browser.newContext({ baseURL: address, viewport: { width: 1024, height: 768 } });
  const page = await context.newPage();
  // What runs this file names functions by a helper that a page does not have.
  await page.addInitScript('globalThis.__name ??= (named) => named');
  await openJobs(page);
  await putRaw(page, 'jobs', { id: AT_THE_EDGES.id, name: AT_THE_EDGES.name, savedAtMilliseconds: 1, fileText: writeJob(AT_THE_EDGES) });
  const sizes: number[] = [];
  for (const jobId of [DEMO_JOB.id, AT_THE_EDGES.id]) {
    await page.goto('about:blank');
    await page.goto(`./#/brief/${jobId}`);
    await page.locator('article.card').first().waitFor({ timeout: 60_000 });
    await page.emulateMedia({ media: 'print' });
    sizes.push(
      ...(await page
        .locator('article.card')
        .evaluateAll((cards) =>
          cards.flatMap((card) =>
            [...card.querySelectorAll('*')]
              .filter(
                (each) =>
                  !(each instanceof SVGElement) &&
                  each.closest('.visually-hidden') === null &&
                  [...each.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.textContent?.trim() !== ''),
              )
              .map((each) => (Number.parseFloat(getComputedStyle(each).fontSize) * 72) / 96),
          ),
        )),
    );
    await page.emulateMedia({ media: null });
  }
  await context.close();
  return Math.min(...sizes);
}
