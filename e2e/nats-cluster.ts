import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import mqtt from 'mqtt';
import { type NatsCertificate, natsNode, natsUsers } from '../src/hub/nats-files.ts';
import { freePort, listening } from './broker-ports.ts';
import type { HubUser } from '../src/hub/users.ts';
import { type CuttableWire, cuttableWire } from '../tests/link/cuttable-wire.ts';
import { GROUND_USERS, passwordOf } from './ground-brokers.ts';

const SIZE = 3;
const READY_ATTEMPTS = 60;
/** A port that was free may be another's before the broker has it; then all begins again on others. */
const START_ATTEMPTS = 3;

/** Whether this machine has nats-server, once it was installed where that can be done. */
export function hasNats(): boolean {
  spawnSync('node', [fileURLToPath(new URL('../.ci/ensure.mjs', import.meta.url)), 'nats'], { stdio: 'inherit' });
  return spawnSync('nats-server', ['--version'], { env: { ...process.env, PATH: `${process.env['PATH'] ?? ''}:/usr/sbin:/usr/local/sbin` } }).status === 0;
}

/** One broker of a cluster on this machine. */
export interface ClusterNode {
  readonly address: string;
  processId(): number;
  /** Ends it as a power cut would. */
  kill(): Promise<void>;
  start(): Promise<void>;
  /** Takes it out of reach of the other nodes, not of its devices. */
  cutOff(): void;
  join(): void;
}

export interface NatsCluster {
  readonly nodes: readonly ClusterNode[];
  stop(): Promise<void>;
}

/**
 * Three nodes by the files that the hub writes; each reaches each by a wire of its own that can be cut.
 *
 * @param certificate with one, of `localhost`, that this process trusts, all speak TLS
 */
export async function startNatsCluster(users: readonly Omit<HubUser, 'password'>[] = GROUND_USERS, certificate?: NatsCertificate): Promise<NatsCluster> {
  for (let attempt = 1; ; attempt += 1) {
    const cluster = await natsCluster(users, certificate);
    try {
      await cluster.begin();
      return cluster;
    } catch (error) {
      await cluster.stop();
      if (attempt === START_ATTEMPTS) throw error;
    }
  }
}

async function natsCluster(
  users: readonly Omit<HubUser, 'password'>[],
  certificate: NatsCertificate | undefined,
): Promise<NatsCluster & { begin(): Promise<void> }> {
  const folder = mkdtempSync(join(tmpdir(), 'quillwind-nats-'));
  writeFileSync(join(folder, 'users.conf'), natsUsers(users.map((user) => ({ ...user, password: passwordOf(user.name) }))));
  const ports: { readonly link: number; readonly route: number }[] = [];
  for (let index = 0; index < SIZE; index += 1) ports.push({ link: await freePort(), route: await freePort() });
  const wires = new Map<string, CuttableWire>();
  for (let from = 0; from < SIZE; from += 1)
    for (let to = 0; to < SIZE; to += 1) if (from !== to) wires.set(`${from} ${to}`, await cuttableWire(ports[to]!.route, '127.0.0.1'));
  const wiresOf = (index: number): CuttableWire[] => [...wires].filter(([key]) => key.split(' ').includes(String(index))).map(([, wire]) => wire);
  const nodes = ports.map(({ link, route }, index) => {
    const name = `node-${index + 1}`;
    const storeFolder = join(folder, name);
    mkdirSync(storeFolder);
    const routes = [...wires].filter(([key]) => key.startsWith(`${index} `)).map(([, wire]) => `localhost:${wire.port}`);
    const path = join(folder, `${name}.conf`);
    writeFileSync(
      path,
      natsNode({ name, linkPort: link, routePort: route, routes, storeFolder, ...(certificate === undefined ? {} : { certificate }) }, 'between nodes'),
    );
    let child: ChildProcess | null = null;
    return {
      address: `${certificate === undefined ? 'ws' : 'wss'}://localhost:${link}/mqtt`,
      processId: () => child?.pid ?? 0,
      async start() {
        child = spawn('nats-server', ['-c', path, '-l', join(folder, `${name}.log`)], {
          stdio: 'ignore',
          env: { ...process.env, PATH: `${process.env['PATH'] ?? ''}:/usr/sbin:/usr/local/sbin` },
        });
        await listening(link, child, 'nats-server', 20);
      },
      async kill() {
        const gone = new Promise<void>((resolve) => void child?.on('exit', () => resolve()));
        child?.kill('SIGKILL');
        await gone;
        child = null;
      },
      cutOff: () => {
        for (const wire of wiresOf(index)) wire.cut();
      },
      join: () => {
        for (const wire of wiresOf(index)) wire.heal();
      },
      isRunning: () => child !== null,
    };
  });
  return {
    nodes,
    async begin() {
      await Promise.all(nodes.map((node) => node.start()));
      for (let waited = 0; !(await canPublish(nodes, users)); waited += 1) {
        if (waited > READY_ATTEMPTS) throw new Error('the nodes have not found each other');
        await pause(500);
      }
    },
    async stop() {
      await Promise.all(nodes.filter((node) => node.isRunning()).map((node) => node.kill()));
      await Promise.all([...wires.values()].map((wire) => wire.close()));
      if (process.env['QUILLWIND_KEEP_NATS'] === undefined) rmSync(folder, { recursive: true, force: true });
      else process.stdout.write(`${folder}\n`);
    },
  };
}

/** The nodes have found each other once each confirms an event. */
async function canPublish(nodes: readonly Pick<ClusterNode, 'address'>[], users: readonly Omit<HubUser, 'password'>[]): Promise<boolean> {
  const confirmed = await Promise.all(
    nodes.map(async ({ address }, index) => {
      // One user a node: two under one name would throw each other out.
      const { name, role } = users[index] ?? { name: '', role: 'ship' };
      const client = mqtt.connect(address, { protocolVersion: 4, clientId: name, username: name, password: passwordOf(name), reconnectPeriod: 0 });
      client.on('error', () => {});
      try {
        return await Promise.race([
          client.publishAsync(`quillwind/1/before/${role}/${name}/event`, 'x', { qos: 1 }).then(() => true),
          pause(3000).then(() => false),
          new Promise<boolean>((resolve) => client.on('close', () => resolve(false))),
        ]);
      } catch {
        return false;
      } finally {
        client.end(true);
      }
    }),
  );
  return confirmed.every(Boolean);
}

function pause(milliseconds: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, milliseconds));
}
