import { readFileSync, writeFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { type RunningBroker, startHubBroker, startMosquitto } from '../../e2e/ground-brokers.ts';
import { hasNats, startNatsCluster } from '../../e2e/nats-cluster.ts';
import { type BrokerManners, MANNERS, mannersOf } from './broker-differences.ts';

const PAGE = new URL('../../src/hub/README.md', import.meta.url);
const [FROM, TO] = ['<!-- manners: measured by tests/link/broker-differences.test.ts -->', '<!-- end of manners -->'] as const;

/** The rows of the page, each by its manner. */
function writtenRows(page: string): ReadonlyMap<string, readonly string[]> {
  const table = page.split(FROM)[1]?.split(TO)[0] ?? '';
  return new Map(
    table
      .split('\n')
      .filter((line) => line.startsWith('| ') && !line.startsWith('| ---'))
      .map((line) => line.slice(2, -2).split(' | '))
      .map(([name = '', ...cells]) => [name, cells]),
  );
}

async function alone(start: () => Promise<RunningBroker>): Promise<BrokerManners> {
  const broker = await start();
  try {
    return await mannersOf([broker.address]);
  } finally {
    await broker.stop();
  }
}

async function together(): Promise<BrokerManners> {
  const cluster = await startNatsCluster();
  try {
    return await mannersOf(cluster.nodes.map(({ address }) => address));
  } finally {
    await cluster.stop();
  }
}

it('the three brokers differ as the page says', { timeout: 240_000 }, async () => {
  const withNats = hasNats();
  if (!withNats) process.stdout.write('      nats-server is not installed: its manners are not measured here\n');
  // Almost all of it is waiting for what must not come.
  const measured = await Promise.all([alone(startHubBroker), alone(startMosquitto), ...(withNats ? [together()] : [])]);
  const page = readFileSync(PAGE, 'utf8');
  if (process.env['QUILLWIND_WRITE_TABLES'] !== undefined && measured.length === 3) {
    const rows = MANNERS.map((name) => `| ${[name, ...measured.map((manners) => manners[name])].join(' | ')} |`);
    const table = `\n\n| | hub | Mosquitto 2.0.11 | nats-server 2.9.10, three nodes |\n| --- | --- | --- | --- |\n${rows.join('\n')}\n\n`;
    writeFileSync(PAGE, `${page.split(FROM)[0]}${FROM}${table}${TO}${page.split(TO)[1]}`);
    return;
  }
  const written = writtenRows(page);
  for (const name of MANNERS) expect(written.get(name)?.slice(0, measured.length), name).toEqual(measured.map((manners) => manners[name]));
});
