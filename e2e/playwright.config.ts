import { defineConfig } from '@playwright/test';
import { findChromium } from '../.ci/chromium.mjs';

/** What measures time, kills browsers, or has a broker or a build of its own: run by itself, one test after another. */
const ALONE = /(?:^|\/)(?:faults\/.*|closed-loop|write|store-kill|ground|ground-link|ground-join|shell|debrief|overlay|photograph)\.spec\.ts$/;

/**
 * Asked for by name: the long looks at every moment of the Write and Draw screens, at every size by day and by night,
 * take many minutes (QUILLWIND_LOOKS=1).
 */
const LONG = process.env['QUILLWIND_LOOKS'] === undefined ? ['write-look.spec.ts', 'draw-look.spec.ts'] : [];

/**
 * Two projects: what may share the machine runs two at a time, the rest alone; `npm test` runs one after the other.
 * serve-dist.ts serves what was built and puts the address into the environment, which the workers inherit.
 */
export default defineConfig({
  testDir: '.',
  snapshotPathTemplate: '{testDir}/pictures/{arg}{ext}',
  outputDir: process.env['QUILLWIND_RESULTS'] ?? './results',
  projects: [
    { name: 'together', testIgnore: [ALONE, ...LONG], workers: 2 },
    { name: 'alone', testMatch: ALONE, workers: 1 },
  ],
  fullyParallel: false,
  // Playwright's own choice is half of the cores, which would take the two of `together` away again.
  workers: 2,
  // Generous, and once more: two shared cores may stand still for seconds. What needed it is counted by `npm test`.
  timeout: 180_000,
  // What must be quick measures its own time; what only has to come is waited for as long as a slow machine needs.
  expect: { timeout: 30_000 },
  retries: 1,
  forbidOnly: process.env['CI'] !== undefined,
  reporter: 'list',
  globalSetup: './serve-dist.ts',
  use: {
    ...(process.env['QUILLWIND_URL'] === undefined ? {} : { baseURL: process.env['QUILLWIND_URL'] }),
    browserName: 'chromium',
    launchOptions: { executablePath: findChromium() ?? 'chromium', args: process.getuid?.() === 0 ? ['--no-sandbox'] : [] },
    permissions: ['geolocation', 'screen-wake-lock'],
    // A trace of every test, kept of the failed ones, costs a quarter of the time (147 s instead of 199 s over twelve tests).
    trace: 'on-first-retry',
    video: 'off',
  },
});
