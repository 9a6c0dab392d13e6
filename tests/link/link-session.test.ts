import { createServer } from 'node:net';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { GroundFact, ShipFact } from '../../src/core/wire/link-messages.ts';
import type { LinkMessage } from '../../src/core/wire/link-parse.ts';
import type { LinkRole } from '../../src/core/wire/link-topics.ts';
import { startLinkSession } from '../../src/link/link-session.ts';
import type { LinkArrival, LinkSession, LinkStatus } from '../../src/link/link-session-types.ts';
import { connectByMqtt } from '../../src/link/mqtt-connection.ts';
import { cuttableWire } from './cuttable-wire.ts';
import { createFakeOutbox } from './fake-outbox.ts';
import { type RunningHub, startTestHub } from './hub-for-tests.ts';
import { quickNow, quickTime } from './quick-time.ts';
import { TOLD_STATE } from './told-state.ts';

let hub: RunningHub;
const open: { end(): Promise<void> }[] = [];

beforeEach(async () => {
  hub = await startTestHub();
});
afterEach(async () => {
  await Promise.all(open.splice(0).map((each) => each.end()));
  await hub.close();
});

interface Device {
  readonly session: LinkSession;
  readonly heard: { readonly message: LinkMessage; readonly arrival: LinkArrival }[];
  readonly statuses: LinkStatus[];
  readonly outbox: ReturnType<typeof createFakeOutbox>;
  readonly waiting: () => number;
}

async function device(
  user: string,
  role: LinkRole,
  options: { address?: string; password?: string; boot?: string; outbox?: ReturnType<typeof createFakeOutbox>; jobId?: string } = {},
): Promise<Device> {
  const outbox = options.outbox ?? createFakeOutbox();
  const made: Omit<Device, 'session'> & { waitingCount: number } = { heard: [], statuses: [], outbox, waitingCount: 0, waiting: () => made.waitingCount };
  const session = await startLinkSession({
    connect: connectByMqtt,
    address: options.address ?? hub.address,
    user,
    password: options.password ?? user,
    jobId: options.jobId ?? 'job-1',
    role,
    boot: options.boot ?? `${user}-boot`,
    presence: { shipIndex: role === 'ship' ? 0 : null, name: user, jobDigest: null },
    outbox,
    time: quickTime,
    random: () => 0,
    page: null,
    onMessage: (message, arrival) => made.heard.push({ message, arrival }),
    onStatus: (status) => made.statuses.push(status),
    onOutbox: (count) => (made.waitingCount = count),
  });
  open.push(session);
  return { ...made, session, waiting: () => made.waitingCount };
}

async function until(holds: () => boolean, seconds = 10): Promise<void> {
  const end = Date.now() + seconds * 1000;
  while (!holds()) {
    if (Date.now() > end) throw new Error(`never: ${holds.toString()}`);
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}

const linked = (one: Device): Promise<void> => until(() => one.statuses.at(-1)?.kind === 'linked');
const events = (one: Device): string[] =>
  one.heard.flatMap(({ message }) => (message.kind === 'event' ? [`${message.event.boot}/${message.event.sequence}`] : []));
const CALL: GroundFact = { kind: 'call', call: 'reads-well', letterIndex: null, character: null };
const SMOKE: ShipFact = { kind: 'smoke', smoke: 'on', letterIndex: 0, character: 'S' };

describe('a link over the hub', () => {
  it('brings events once, in order, and positions as they come', async () => {
    const ship = await device('lead', 'ship');
    const anna = await device('anna', 'ground');
    await Promise.all([linked(ship), linked(anna)]);
    for (let index = 0; index < 50; index += 1) ship.session.tellEvent(SMOKE, quickNow());
    ship.session.tellState(TOLD_STATE);
    await until(() => events(anna).length === 50 && anna.heard.some(({ message }) => message.kind === 'state'));
    expect(events(anna)).toEqual(Array.from({ length: 50 }, (_, index) => `lead-boot/${index}`));
    expect(ship.waiting()).toBe(0);
    expect([...ship.outbox.messages.values()].every(({ acknowledged }) => acknowledged)).toBe(true);
  });

  it('carries calls from the ground to the ships, and from one observer to another', async () => {
    const [ship, anna, ben] = await Promise.all([device('lead', 'ship'), device('anna', 'ground'), device('ben', 'ground')]);
    await Promise.all([ship, anna, ben].map(linked));
    anna.session.tellEvent(CALL, quickNow());
    await until(() => events(ship).length === 1 && events(ben).length === 1);
  });

  it('keeps events for a link that is not there yet, and across a page that starts anew', async () => {
    const outbox = createFakeOutbox();
    const before = await device('lead', 'ship', { outbox, boot: 'first', address: 'ws://localhost:9/link' });
    before.session.tellEvent(SMOKE, quickNow());
    before.session.tellEvent(SMOKE, quickNow());
    await until(() => outbox.messages.size === 2);
    const anna = await device('anna', 'ground');
    await linked(anna);
    const after = await device('lead', 'ship', { outbox, boot: 'second' });
    after.session.tellEvent(SMOKE, quickNow());
    await until(() => events(anna).length === 3);
    expect(events(anna)).toEqual(['first/0', 'first/1', 'second/0']);
    expect(anna.heard.flatMap(({ message }) => (message.kind === 'link' ? message.presence.boots : []))).toContainEqual({ boot: 'first', count: 2 });
  });

  it('tells events again to whoever asks, once for all who ask together', async () => {
    const ship = await device('lead', 'ship');
    await linked(ship);
    for (let index = 0; index < 5; index += 1) ship.session.tellEvent(SMOKE, quickNow());
    await until(() => ship.waiting() === 0);
    // Joined late: heard nothing of it.
    const [anna, ben] = await Promise.all([device('anna', 'ground'), device('ben', 'ground')]);
    await Promise.all([linked(anna), linked(ben)]);
    await quickTime.after(2100);
    ship.session.tellAgain('lead-boot', 1, 3);
    ship.session.tellAgain('lead-boot', 1, 3);
    await until(() => events(anna).length >= 3 && events(ben).length >= 3);
    await new Promise((resolve) => setTimeout(resolve, 200));
    expect(events(anna)).toEqual(['lead-boot/1', 'lead-boot/2', 'lead-boot/3']);
  });

  it('says LINK LOST by the will when a ship vanishes, and nothing but good-bye when it ends', async () => {
    const anna = await device('anna', 'ground');
    await linked(anna);
    const presences = (name: string): string[] =>
      anna.heard.flatMap(({ message }) =>
        message.topic.device !== name ? [] : message.kind === 'link' ? [message.presence.state] : message.kind === 'cleared' ? ['cleared'] : [],
      );
    const ship = await device('lead', 'ship');
    await linked(ship);
    ship.session.tellState(TOLD_STATE);
    await until(() => anna.heard.some(({ message }) => message.kind === 'state'));
    await ship.session.end();
    await until(() => presences('lead').length === 4);
    expect(presences('lead')).toEqual(['up', 'ended', 'cleared', 'cleared']);

    const cut = await cuttableWire(hub.port);
    const two = await device('two', 'ship', { address: `ws://localhost:${cut.port}/link` });
    await linked(two);
    await until(() => presences('two').includes('up'));
    await cut.close();
    await until(() => presences('two').includes('lost'));
    expect(presences('two')).toEqual(['up', 'lost']);

    // Who comes later finds nothing of the first, and the loss of the second.
    const ben = await device('ben', 'ground');
    await until(() => ben.heard.some(({ message }) => message.topic.device === 'two'));
    expect(ben.heard.filter(({ message }) => message.topic.device === 'lead')).toEqual([]);
    expect(ben.heard.filter(({ arrival }) => arrival.retained).map(({ message }) => message.kind)).toContain('link');
  });

  it('heals after a cut, with what happened meanwhile told once', async () => {
    const cut = await cuttableWire(hub.port);
    const ship = await device('lead', 'ship', { address: `ws://localhost:${cut.port}/link` });
    const anna = await device('anna', 'ground');
    await Promise.all([linked(ship), linked(anna)]);
    ship.session.tellEvent(SMOKE, quickNow());
    await until(() => events(anna).length === 1);
    cut.cut();
    await until(() => ship.statuses.at(-1)?.kind === 'waiting');
    for (let index = 0; index < 20; index += 1) ship.session.tellEvent(SMOKE, quickNow());
    // Positions of the time without a link are gone: only the newest is of any use.
    ship.session.tellState(TOLD_STATE);
    expect(ship.waiting()).toBe(20);
    cut.heal();
    await linked(ship);
    await until(() => events(anna).length === 21);
    expect(new Set(events(anna)).size).toBe(21);
    expect(anna.heard.filter(({ message }) => message.kind === 'state')).toEqual([]);
    await cut.close();
  });
});

describe('a link that does not come about', () => {
  it('stops at a wrong password and says so', async () => {
    const ship = await device('lead', 'ship', { password: 'wrong' });
    await until(() => ship.statuses.at(-1)?.kind === 'refused');
    await quickTime.after(2500);
    expect(ship.statuses.map(({ kind }) => kind)).toEqual(['connecting', 'refused']);
    expect(JSON.stringify(hub.refused)).not.toContain('"wrong"');
  });

  it('gives a broker that accepts and stalls ten seconds, then tries again', async () => {
    const stalling = createServer(() => {});
    await new Promise<void>((resolve) => stalling.listen(0, resolve));
    const { port } = stalling.address() as { port: number };
    const ship = await device('lead', 'ship', { address: `ws://localhost:${port}/link` });
    await until(() => ship.statuses.at(-1)?.kind === 'waiting', 14);
    expect(ship.statuses.at(-1)).toMatchObject({ reason: { kind: 'unreachable', detail: 'it was reached and gave no answer' }, retryInSeconds: 1 });
    await until(() => ship.statuses.filter(({ kind }) => kind === 'connecting').length === 2, 4);
    stalling.close();
  });

  it('waits longer from attempt to attempt where nobody listens', async () => {
    const ship = await device('lead', 'ship', { address: 'ws://localhost:9/link' });
    await until(() => ship.statuses.filter(({ kind }) => kind === 'waiting').length === 3, 12);
    expect(ship.statuses.flatMap((status) => (status.kind === 'waiting' ? [status.retryInSeconds] : []))).toEqual([1, 2, 4]);
  });

  it('goes round all addresses before it waits longer', async () => {
    const lonely = await device('lead', 'ship', { address: 'ws://localhost:9/link ws://localhost:9/link ws://localhost:9/link' });
    await until(() => lonely.statuses.filter(({ kind }) => kind === 'waiting').length === 5, 20);
    expect(lonely.statuses.flatMap((status) => (status.kind === 'waiting' ? [status.retryInSeconds] : [])).slice(0, 5)).toEqual([1, 1, 1, 2, 2]);
  });

  it('says that a user has no rights in a job', async () => {
    const stranger = await device('elsewhere', 'ground');
    await until(() => stranger.statuses.at(-1)?.kind === 'no-rights');
  });
});
