import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from '@playwright/test';
import { build } from 'vite';
import { createHub } from '../src/hub/create-hub.ts';
import { listenFrom } from '../src/hub/listen.ts';
import { killBrowserOf } from './browser-kill.ts';

const KILLS = 6;

test('every row that was counted as saved is there after the browser was killed', async ({ playwright, launchOptions }, info) => {
  test.setTimeout(180_000);
  const folder = info.outputPath('page');
  mkdirSync(folder, { recursive: true });
  await build({
    configFile: false,
    root: fileURLToPath(new URL('.', import.meta.url)),
    logLevel: 'error',
    build: { outDir: folder, target: 'es2023', lib: { entry: 'store-page.ts', formats: ['es'], fileName: () => 'store-page.js' } },
  });
  writeFileSync(`${folder}/index.html`, '<!doctype html><title>-</title><script type="module" src="/store-page.js"></script>');
  const hub = createHub({ distDirectory: folder });
  const address = `http://localhost:${await listenFrom(hub, 0)}/`;
  const profile = info.outputPath('profile');

  let saved = -1;
  for (let kill = 0; kill < KILLS; kill += 1) {
    const writing = await playwright.chromium.launchPersistentContext(profile, launchOptions);
    const page = await writing.newPage();
    page.on('console', (message) => {
      const [word, sequence] = message.text().split(' ');
      if (word === 'saved') saved = Math.max(saved, Number(sequence));
    });
    const before = saved;
    await page.goto(`${address}#write`);
    await expect.poll(() => saved - before, { timeout: 20_000 }).toBeGreaterThan(20);
    // At no particular moment: in the middle of whatever is being written.
    await new Promise((resolve) => setTimeout(resolve, 37 * kill));
    await killBrowserOf(profile);
    // Its browser is gone; closing it would wait for ever.
    void writing.close().catch(() => {});

    const reopened = await playwright.chromium.launchPersistentContext(profile, launchOptions);
    const reader = await reopened.newPage();
    await reader.goto(address);
    await expect(reader).toHaveTitle(/rows/);
    const found = JSON.parse(await reader.title()) as { rows: number; last: number; gaps: unknown[]; damaged: unknown[]; wrong: number };
    expect(found.last).toBeGreaterThanOrEqual(saved);
    expect(found).toMatchObject({ gaps: [], damaged: [], wrong: 0, rows: found.last + 1 });
    await reopened.close();
  }
  info.annotations.push({ type: 'rows', description: `${saved + 1} acknowledged over ${KILLS} kills, none lost` });
  expect(saved).toBeGreaterThan(100);
  hub.closeAllConnections();
  hub.close();
});
