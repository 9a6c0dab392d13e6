import { describe, expect, it } from 'vitest';
import { hasNats } from '../../e2e/nats-cluster.ts';
import type { Connect } from '../../src/link/connection.ts';
import { joinLinkRoom } from '../../src/link/link-room.ts';
import { startLinkSession } from '../../src/link/link-session.ts';
import type { LinkStatus } from '../../src/link/link-session-types.ts';
import { connectByMqtt } from '../../src/link/mqtt-connection.ts';
import { flyOverCluster } from './cluster-campaign.ts';
import { createFakeOutbox } from './fake-outbox.ts';
import { startTestHub } from './hub-for-tests.ts';
import { flyOverSecureCluster } from './secure-cluster.ts';
import { quickNow, quickTime } from './quick-time.ts';
import { TOLD_STATE } from './told-state.ts';
import { SEED } from '../property.ts';

const there = hasNats();
if (!there) process.stdout.write('      nats-server is not installed: a cluster is not tested here\n');

describe('a link over several addresses', () => {
  it('goes on to the next one when nobody answers at the first', async () => {
    const hub = await startTestHub();
    const statuses: LinkStatus[] = [];
    const session = await startLinkSession({
      connect: connectByMqtt,
      address: `ws://localhost:9/link, ${hub.address}`,
      user: 'lead',
      password: 'lead',
      jobId: 'job-1',
      role: 'ship',
      boot: 'b1',
      presence: { shipIndex: 0, name: 'lead', jobDigest: null },
      outbox: createFakeOutbox(),
      time: quickTime,
      random: () => 0,
      page: null,
      onMessage: () => {},
      onStatus: (status) => statuses.push(status),
      onOutbox: () => {},
    });
    await expect.poll(() => statuses.at(-1)?.kind, { timeout: 15_000 }).toBe('linked');
    expect(statuses.map(({ kind }) => kind)).toContain('waiting');
    await session.end();
    await hub.close();
  }, 30_000);
});

it.each([
  ['positions', true],
  ['nothing more of a ship that is there', false],
])(
  'a device that is let in and hears %s, but never an event, goes on to the next address',
  async (_, telling) => {
    const hub = await startTestHub();
    let connections = 0;
    const deafAtFirst: Connect = (options, listener) => {
      connections += 1;
      const isDeaf = connections === 1;
      return connectByMqtt(options, {
        ...listener,
        received: (topic, payload, retained) => {
          if (!(isDeaf && topic.endsWith('/event'))) listener.received(topic, payload, retained);
        },
      });
    };
    const heard: number[] = [];
    const join = (user: string, role: 'ship' | 'ground', connect: Connect) =>
      joinLinkRoom({
        connect,
        address: `${hub.address} ${hub.address}`,
        user,
        password: user,
        jobId: 'job-1',
        role,
        boot: 'b1',
        presence: { shipIndex: role === 'ship' ? 0 : null, name: user, jobDigest: null },
        outbox: createFakeOutbox(),
        time: quickTime,
        random: () => 0,
        page: null,
        onEvent: (_device, { sequence }) => heard.push(sequence),
        onChange: () => {},
      });
    const anna = await join('anna', 'ground', deafAtFirst);
    const lead = await join('lead', 'ship', connectByMqtt);
    const timer = setInterval(() => telling && lead.tellState(TOLD_STATE), 200);
    for (let event = 0; event < 5; event += 1) lead.tellEvent({ kind: 'phase', phase: 'stroke' }, quickNow());
    await expect.poll(() => heard.toSorted((one, other) => one - other), { timeout: 45_000 }).toEqual([0, 1, 2, 3, 4]);
    expect(connections).toBe(2);
    clearInterval(timer);
    await anna.end();
    await lead.end();
    await hub.close();
  },
  60_000,
);

it('a device that does not hear its own word at a node goes on to the next, and stays where it does', async () => {
  const hub = await startTestHub();
  let connections = 0;
  const muteAtFirst: Connect = (options, listener) => {
    connections += 1;
    const isMute = connections === 1;
    return connectByMqtt(options, {
      ...listener,
      received: (topic, payload, retained) => {
        if (!(isMute && topic.endsWith('/link'))) listener.received(topic, payload, retained);
      },
    });
  };
  const statuses: string[] = [];
  const session = await startLinkSession({
    connect: muteAtFirst,
    address: `${hub.address} ${hub.address}`,
    user: 'anna',
    password: 'anna',
    jobId: 'job-1',
    role: 'ground',
    boot: 'b1',
    presence: { shipIndex: null, name: 'anna', jobDigest: null },
    outbox: createFakeOutbox(),
    time: quickTime,
    random: () => 0,
    page: null,
    onMessage: () => {},
    onStatus: ({ kind }) => statuses.push(kind),
    onOutbox: () => {},
  });
  await expect.poll(() => connections, { timeout: 25_000 }).toBe(2);
  await quickTime.after(12_000);
  expect(statuses).toContain('no-rights');
  expect(statuses.at(-1)).toBe('linked');
  expect(connections).toBe(2);
  await session.end();
  await hub.close();
}, 60_000);

// Almost all of a campaign is waiting: both at once, each with nodes and ports of its own.
describe.skipIf(!there)('a cluster of three nodes', () => {
  it.concurrent.each([
    ['plainly, for one machine', flyOverCluster],
    ['by TLS alone', flyOverSecureCluster],
  ])(
    `%s: one killed and one cut off from the others loses, doubles and forges nothing, and calls nothing old live (seed ${SEED})`,
    async (_, fly) => {
      const figures = await fly({ seed: SEED, killedSeconds: 4, cutSeconds: 10 });
      process.stdout.write(
        `      ${figures.wanted} events for two observers over three nodes: ${figures.lost} lost, ${figures.doubled} doubled, ${figures.forged} forged, ${figures.staleLive} of ${figures.liveLooks} looks stale; all heard ${figures.healedSeconds.toFixed(0)} s after healing\n`,
      );
      expect(figures).toMatchObject({ lost: 0, doubled: 0, forged: 0, staleLive: 0 });
      expect(figures.wanted).toBeGreaterThan(100);
      expect(figures.liveLooks).toBeGreaterThan(50);
    },
    300_000,
  );
});
