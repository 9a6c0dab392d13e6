import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { hasNats, startNatsCluster } from '../../e2e/nats-cluster.ts';
import { startMosquitto } from '../../e2e/ground-brokers.ts';
import { hashFromPassword } from '../../src/hub/password-hash.ts';
import { textFromUsers } from '../../src/hub/users.ts';
import { type LoadMeasure, type LoadPlan, loadUsers, measureLoad } from './hub-load.ts';

/** The same load on the hub and on Mosquitto, one after the other on this machine. */
export interface HubComparison {
  readonly plan: LoadPlan;
  readonly hub: LoadMeasure;
  readonly mosquitto: LoadMeasure;
  /** Over three nodes; null where nats-server is not installed or was not asked for. */
  readonly cluster: LoadMeasure | null;
}

/** Fifty ships and five hundred observers, all in one job: every observer hears every ship. */
export const WHOLE_LOAD: LoadPlan = { jobs: 1, ships: 50, observers: 500, seconds: 20 };
/** One ship to an observer, in one job and in two hundred: what an observer costs must not grow with other jobs. */
export const ONE_JOB_LOAD: LoadPlan = { jobs: 1, ships: 1, observers: 200, seconds: 15 };
export const MANY_JOBS_LOAD: LoadPlan = { jobs: 200, ships: 200, observers: 200, seconds: 15 };
/** The same people, three ships to a job at most, as jobs are. */
export const JOBS_LOAD: LoadPlan = { ...WHOLE_LOAD, jobs: 17 };

/** Runs a load on both brokers. */
export async function compareBrokers(plan: LoadPlan, withCluster = false): Promise<HubComparison> {
  const users = loadUsers(plan.ships, plan.observers).map((user) => ({ ...user, jobs: ['*'] }));
  const folder = mkdtempSync(join(tmpdir(), 'quillwind-bench-'));
  const usersPath = join(folder, 'users.json');
  // Cheap hashes: joining is not what is measured.
  const hashed = await Promise.all(users.map(async (user) => ({ ...user, password: await hashFromPassword(user.name.repeat(2), { N: 2, r: 1, p: 1 }) })));
  writeFileSync(usersPath, textFromUsers(hashed));
  const child = spawn(process.execPath, ['--import', 'tsx', fileURLToPath(new URL('./hub-process.ts', import.meta.url)), usersPath], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let hub: LoadMeasure;
  try {
    const address = await new Promise<string>((resolve, reject) => {
      child.stdout.once('data', (data: Buffer) => resolve(data.toString().trim()));
      child.once('exit', (code) => reject(new Error(`the hub ended with ${code}`)));
    });
    hub = await measureLoad([address], [child.pid ?? 0], plan);
  } finally {
    child.removeAllListeners('exit');
    child.kill();
    rmSync(folder, { recursive: true, force: true });
  }
  const broker = await startMosquitto(users);
  let mosquitto: LoadMeasure;
  try {
    mosquitto = await measureLoad([broker.address], [broker.processId ?? 0], plan);
  } finally {
    await broker.stop();
  }
  return { plan, hub, mosquitto, cluster: withCluster && hasNats() ? await measureCluster(plan, users) : null };
}

async function measureCluster(plan: LoadPlan, users: Parameters<typeof startNatsCluster>[0]): Promise<LoadMeasure> {
  const cluster = await startNatsCluster(users);
  try {
    return await measureLoad(
      cluster.nodes.map(({ address }) => address),
      cluster.nodes.map((node) => node.processId()),
      plan,
    );
  } finally {
    await cluster.stop();
  }
}

/** Prints both loads, the hub beside Mosquitto. */
export async function benchHub(): Promise<void> {
  for (const plan of [JOBS_LOAD, WHOLE_LOAD]) {
    const { hub, mosquitto } = await compareBrokers(plan);
    console.log(`${plan.ships} ships, ${plan.observers} observers, ${plan.jobs} ${plan.jobs === 1 ? 'job' : 'jobs'}, ${plan.seconds} s`);
    for (const [name, measure] of [
      ['hub', hub],
      ['mosquitto', mosquitto],
    ] as const) {
      console.log(
        `  ${name.padEnd(10)} ${measure.delivered} of ${measure.wanted.toFixed(0)} delivered, median ${measure.medianMilliseconds.toFixed(1)} ms, p99 ${measure.p99Milliseconds.toFixed(1)} ms, longest ${measure.longestMilliseconds.toFixed(0)} ms, memory ${measure.idleMegabytes.toFixed(0)} to ${measure.peakMegabytes.toFixed(0)} MB`,
      );
    }
  }
}
