// Runs the smoke test in a second and a third engine: npm run engines. It installs what it needs on Debian, as root.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import type { Engine } from './engine.ts';
import { startFirefox } from './firefox.ts';
import { smokeTest } from './smoke.ts';
import { startWebKit } from './webkit.ts';

const FIRST_PORT = Number(process.env['PORT'] ?? 8180);
const NEEDED = { 'firefox-esr': 'firefox-esr', WebKitWebDriver: 'webkit2gtk-driver', Xvfb: 'xvfb' } as const;

const isThere = (command: string): boolean => (process.env['PATH'] ?? '').split(delimiter).some((folder) => existsSync(join(folder, command)));

function ensureEngines(): void {
  const missing = Object.entries(NEEDED)
    .filter(([command]) => !isThere(command))
    .map(([, name]) => name);
  if (missing.length === 0) return;
  const byHand = `apt-get update && apt-get install --yes --no-install-recommends ${missing.join(' ')}`;
  if (process.getuid?.() !== 0 || !existsSync('/usr/bin/apt-get')) throw new Error(`Missing: ${missing.join(', ')}. On Debian: sudo sh -c '${byHand}'`);
  console.log(`Installing ${missing.join(', ')} with apt, one to three minutes.`);
  const { status } = spawnSync('sh', ['-c', byHand], { stdio: 'inherit', env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' } });
  if (status !== 0) throw new Error('apt did not finish; its own message stands above.');
}

async function runOne(what: string, start: () => Promise<Engine>, port: number): Promise<boolean> {
  console.log(`\n${what}`);
  let engine: Engine | null = null;
  try {
    engine = await start();
    console.log(`  ${engine.name}`);
    await smokeTest(engine, port, (step) => console.log(`  ok  ${step}`));
    return true;
  } catch (error) {
    console.log(`  FAILED  ${error instanceof Error ? error.message : String(error)}`);
    return false;
  } finally {
    await engine?.close();
  }
}

try {
  ensureEngines();
  const results = [
    await runOne('Firefox', () => startFirefox(FIRST_PORT), FIRST_PORT + 10),
    await runOne('WebKitGTK', () => startWebKit(FIRST_PORT + 1), FIRST_PORT + 20),
  ];
  const passed = results.filter(Boolean).length;
  console.log(`\n${passed} of ${results.length} engines: load, offline, job, plan, rehearsal to the first smoke, log.`);
  process.exitCode = passed === results.length ? 0 : 1;
} catch (error) {
  console.error(error instanceof Error ? error.message : String(error));
  process.exitCode = 1;
}
