import { defineConfig } from '@playwright/test';
import { findChromium } from '../.ci/chromium.mjs';

/**
 * One worker: the machine is small and a flight test measures time. serve-dist.ts serves what was built and
 * puts the address into the environment, which the worker inherits.
 */
export default defineConfig({
  testDir: '.',
  outputDir: process.env['QUILLWIND_RESULTS'] ?? './results',
  // Asked for by name: the long looks at every moment of the Fly and Draw screens, at every size by day and by night,
  // take many minutes (QUILLWIND_LOOKS=1).
  testIgnore: process.env['QUILLWIND_LOOKS'] === undefined ? ['fly-look.spec.ts', 'plan-look.spec.ts'] : [],
  workers: 1,
  fullyParallel: false,
  // Generous, and once more in CI: two shared cores may stand still for seconds, and no test here judges time by the clock.
  timeout: 180_000,
  retries: process.env['CI'] === undefined ? 0 : 1,
  forbidOnly: process.env['CI'] !== undefined,
  reporter: 'list',
  globalSetup: './serve-dist.ts',
  use: {
    ...(process.env['QUILLWIND_URL'] === undefined ? {} : { baseURL: process.env['QUILLWIND_URL'] }),
    browserName: 'chromium',
    launchOptions: { executablePath: findChromium() ?? 'chromium', args: process.getuid?.() === 0 ? ['--no-sandbox'] : [] },
    permissions: ['geolocation', 'screen-wake-lock'],
    trace: 'retain-on-failure',
    video: 'off',
  },
});
