import { execFileSync, spawn, spawnSync } from 'node:child_process';
import { chmodSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { createHub, LINK_PATH } from '../src/hub/create-hub.ts';
import { freePort, listening } from './broker-ports.ts';
import { createLinkBroker } from '../src/hub/link-broker.ts';
import { listenFrom } from '../src/hub/listen.ts';
import { mosquittoAccess, mosquittoConfiguration } from '../src/hub/mosquitto-files.ts';
import { hashFromPassword } from '../src/hub/password-hash.ts';
import type { HubUser } from '../src/hub/users.ts';
import { distDirectory } from './serve-dist.ts';

/** A broker under test, by its WebSocket address on this machine. */
export interface RunningBroker {
  readonly name: 'hub' | 'mosquitto';
  readonly address: string;
  readonly processId: number | null;
  stop(): Promise<void>;
}

/** Who takes part, each with its name doubled as password. `spy` is let in and has no part in anything. */
export const GROUND_USERS: readonly Omit<HubUser, 'password'>[] = [
  { name: 'lead', role: 'ship', jobs: ['*'] },
  { name: 'two', role: 'ship', jobs: ['*'] },
  { name: 'three', role: 'ship', jobs: ['*'] },
  { name: 'anna', role: 'ground', jobs: ['*'] },
  { name: 'ben', role: 'ground', jobs: ['*'] },
  { name: 'evil', role: 'ground', jobs: ['*'] },
  { name: 'spy', role: 'none', jobs: [] },
];

export const passwordOf = (name: string): string => `${name}${name}`;

/** The embedded hub, as `src/hub` serves it. */
export async function startHubBroker(): Promise<RunningBroker> {
  const users = await Promise.all(GROUND_USERS.map(async (user): Promise<HubUser> => ({ ...user, password: await hashFromPassword(passwordOf(user.name)) })));
  const broker = await createLinkBroker({ users });
  const server = createHub({ distDirectory: distDirectory(), broker, allowedOrigins: [new URL(process.env['QUILLWIND_URL'] ?? 'http://localhost').origin] });
  const port = await listenFrom(server, 0);
  return {
    name: 'hub',
    address: `ws://localhost:${port}${LINK_PATH}`,
    processId: null,
    async stop() {
      await broker.close();
      server.closeAllConnections();
      await new Promise<void>((resolve) => void server.close(() => resolve()));
    },
  };
}

/** Debian's Mosquitto with WebSockets, a password file and an access file, written as the hub writes it. */
export async function startMosquitto(users: readonly Omit<HubUser, 'password'>[] = GROUND_USERS, changes = ''): Promise<RunningBroker> {
  const { status } = spawnSync('node', [fileURLToPath(new URL('../.ci/ensure.mjs', import.meta.url)), 'mosquitto'], { stdio: 'inherit' });
  if (status !== 0) throw new Error('There is no Mosquitto to test with.');
  const folder = mkdtempSync(join(tmpdir(), 'quillwind-mosquitto-'));
  const [passwordPath, accessPath, configurationPath] = ['passwords', 'access', 'mosquitto.conf'].map((name) => join(folder, name)) as [string, string, string];
  writeFileSync(passwordPath, users.map(({ name }) => `${name}:${passwordOf(name)}\n`).join(''));
  execFileSync('mosquitto_passwd', ['-U', passwordPath]);
  writeFileSync(accessPath, mosquittoAccess(users.map((user) => ({ ...user, password: '' }))));
  const [port, plainPort] = [await freePort(), await freePort()];
  writeFileSync(configurationPath, `${mosquittoConfiguration({ port, plainPort, passwordPath, accessPath })}${changes}`);
  // Started by root it gives root up, and must still read its files.
  chmodSync(folder, 0o755);
  for (const path of [passwordPath, accessPath, configurationPath]) chmodSync(path, 0o644);
  const broker = spawn('mosquitto', ['-c', configurationPath], {
    stdio: ['ignore', 'ignore', 'pipe'],
    env: { ...process.env, PATH: `${process.env['PATH'] ?? ''}:/usr/sbin:/usr/local/sbin` },
  });
  let said = '';
  broker.stderr?.on('data', (data: Buffer) => (said += data.toString()));
  await listening(port, broker, 'Mosquitto', 10, () => said);
  return {
    name: 'mosquitto',
    address: `ws://127.0.0.1:${port}/`,
    processId: broker.pid ?? null,
    async stop() {
      const gone = new Promise<void>((resolve) => void broker.on('exit', () => resolve()));
      broker.kill();
      await gone;
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
