import { type ChildProcess, spawn } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import mqtt from 'mqtt';
import { afterEach, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'quillwind-production-'));
let child: ChildProcess | null = null;
afterEach(() => {
  child?.kill();
  rmSync(folder, { recursive: true, force: true });
});

/** As `npm ci --omit=dev` leaves it: the sources, and every package of the lock file that is not for development alone. */
function withoutDevelopmentPackages(): number {
  cpSync(join(root, 'src'), join(folder, 'src'), { recursive: true });
  cpSync(join(root, 'package.json'), join(folder, 'package.json'));
  const { packages } = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')) as {
    readonly packages: Readonly<Record<string, { readonly dev?: boolean; readonly devOptional?: boolean }>>;
  };
  const kept = Object.entries(packages).filter(
    ([path, { dev, devOptional }]) => /^node_modules\/(@[^/]+\/)?[^/]+$/.test(path) && dev !== true && devOptional !== true,
  );
  for (const [path] of kept) {
    if (!existsSync(join(root, path))) continue;
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    symlinkSync(join(root, path), join(folder, path));
  }
  return kept.length;
}

it('the hub begins without development packages, with one command, and says that it serves the link alone', async () => {
  expect(withoutDevelopmentPackages()).toBeGreaterThan(20);
  expect(existsSync(join(folder, 'node_modules/vite'))).toBe(false);
  child = spawn(process.execPath, ['--import', 'tsx', 'src/hub/main.ts', '--port', '0'], { cwd: folder, stdio: ['ignore', 'pipe', 'pipe'] });
  let said = '';
  child.stdout?.on('data', (data: Buffer) => (said += data.toString()));
  child.stderr?.on('data', (data: Buffer) => (said += data.toString()));
  await expect.poll(() => said, { timeout: 30_000 }).toContain('Ctrl+C');
  expect(said).toContain('only the link is served');
  const password = /lead\s+ship\s+(\S+)/.exec(said)?.[1] ?? '';
  const address = /link (ws:\S+)/.exec(said)?.[1] ?? '';
  const client = mqtt.connect(address, { clientId: 'lead', username: 'lead', password, reconnectPeriod: 0 });
  const outcome = await new Promise<string>((resolve) => {
    client.on('connect', () => resolve('in'));
    client.on('error', (error) => resolve(error.message));
  });
  client.end(true);
  expect(outcome).toBe('in');
}, 60_000);
