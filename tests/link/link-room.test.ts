import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import mqtt from 'mqtt';
import type { LinkEvent, ShipFact } from '../../src/core/wire/link-messages.ts';
import type { LinkInstant } from '../../src/link/link-clock.ts';
import { joinLinkRoom, type LinkRoom, type RoomView } from '../../src/link/link-room.ts';
import { connectByMqtt } from '../../src/link/mqtt-connection.ts';
import { freshness, type ShipSeen } from '../../src/link/ship-seen.ts';
import { cuttableWire, type CuttableWire } from './cuttable-wire.ts';
import { createFakeOutbox } from './fake-outbox.ts';
import { type RunningHub, startTestHub } from './hub-for-tests.ts';
import { quickNow, quickTime } from './quick-time.ts';
import { TOLD_STATE } from './told-state.ts';

let hub: RunningHub;
const rooms: LinkRoom[] = [];
const wires: CuttableWire[] = [];

beforeEach(async () => {
  hub = await startTestHub();
});
afterEach(async () => {
  await Promise.all(rooms.splice(0).map((room) => room.end()));
  await Promise.all(wires.splice(0).map((wire) => wire.close()));
  await hub.close();
});

interface Member {
  readonly room: LinkRoom;
  readonly heard: string[];
  readonly view: () => RoomView;
}

interface MemberOptions {
  readonly port?: number;
  /** How many addresses it is given, all the same. */
  readonly addresses?: number;
  readonly boot?: string;
  /** How wrong the device's clock is. */
  readonly clockOffMilliseconds?: number;
  readonly outbox?: ReturnType<typeof createFakeOutbox>;
}

async function join(
  user: string,
  role: 'ship' | 'ground',
  { port = hub.port, addresses = 1, boot = 'b1', clockOffMilliseconds = 0, outbox = createFakeOutbox() }: MemberOptions = {},
): Promise<Member> {
  const heard: string[] = [];
  const room = await joinLinkRoom({
    connect: connectByMqtt,
    address: Array.from({ length: addresses }, () => `ws://localhost:${port}/link`).join(' '),
    user,
    password: user,
    jobId: 'job-1',
    role,
    boot,
    presence: { shipIndex: role === 'ship' ? ['lead', 'two', 'three'].indexOf(user) : null, name: user, jobDigest: null },
    outbox,
    time: {
      ...quickTime,
      now: (): LinkInstant => ({ ...quickTime.now(), wallMilliseconds: quickNow() + clockOffMilliseconds }),
    },
    random: Math.random,
    page: null,
    onEvent: (device: string, { boot: of, sequence }: LinkEvent) => heard.push(`${device}/${of}/${sequence}`),
    onChange: () => {},
  });
  rooms.push(room);
  const member = { room, heard, view: room.view };
  await until(() => member.view().status.kind === 'linked');
  return member;
}

async function until(holds: () => boolean, seconds = 15): Promise<void> {
  const end = Date.now() + seconds * 1000;
  while (!holds()) {
    if (Date.now() > end) throw new Error(`never: ${holds.toString()}`);
    await new Promise((resolve) => setTimeout(resolve, 25));
  }
}

async function newWire(): Promise<CuttableWire> {
  const made = await cuttableWire(hub.port);
  wires.push(made);
  return made;
}

const pause = (milliseconds: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, milliseconds));
const PHASE: ShipFact = { kind: 'phase', phase: 'stroke' };
const ship = (member: Member, device: string): ShipSeen | undefined => member.view().ships.find((each) => each.device === device);
const fresh = (member: Member, device: string): string => {
  const seen = ship(member, device);
  return seen === undefined ? 'unheard' : freshness(seen, quickTime.now()).kind;
};
const all = (device: string, count: number, boot = 'b1'): string[] => Array.from({ length: count }, (_, index) => `${device}/${boot}/${index}`);

describe('a room', () => {
  it('loses no event and doubles none, whoever is cut off when', async () => {
    const [shipWire, groundWire] = [await newWire(), await newWire()];
    const [lead, two, three] = [await join('lead', 'ship', { port: shipWire.port }), await join('two', 'ship'), await join('three', 'ship')];
    const anna = await join('anna', 'ground', { port: groundWire.port });
    const tellAll = (times: number): void => {
      for (let index = 0; index < times; index += 1) for (const { room } of [lead, two, three]) room.tellEvent(PHASE, quickNow());
    };
    tellAll(5);
    // The observer is away: what the ships tell meanwhile is told to nobody.
    groundWire.cut();
    await pause(100);
    tellAll(7);
    await until(() => lead.view().waitingCount === 0 && two.view().waitingCount === 0);
    // A ship is away too, when the observer comes back.
    shipWire.cut();
    groundWire.heal();
    tellAll(4);
    // And one observer comes only now.
    const ben = await join('ben', 'ground');
    await until(() => anna.view().status.kind === 'linked');
    shipWire.heal();
    tellAll(2);
    const expected = [...all('lead', 18), ...all('two', 18), ...all('three', 18)].sort();
    await until(() => anna.heard.length >= 54 && ben.heard.length >= 54, 18);
    await pause(300);
    expect(anna.heard.toSorted()).toEqual(expected);
    expect(ben.heard.toSorted()).toEqual(expected);
    expect(anna.view().missingCount).toBe(0);
  }, 45_000);

  it('keeps a link that has just come back while what was missed is still asked for', async () => {
    const wire = await newWire();
    const [lead, anna] = await Promise.all([join('lead', 'ship'), join('anna', 'ground', { port: wire.port, addresses: 2 })]);
    const timer = setInterval(() => lead.room.tellState(TOLD_STATE), 200);
    lead.room.tellEvent(PHASE, quickNow());
    await until(() => anna.heard.length === 1);
    await quickTime.after(3000);
    wire.cut();
    await until(() => anna.view().status.kind === 'waiting');
    for (let event = 0; event < 5; event += 1) lead.room.tellEvent(PHASE, quickNow());
    await quickTime.after(25_000);
    wire.heal();
    await until(() => anna.view().status.kind === 'linked', 20);
    const after = new Set<string>();
    const looking = setInterval(() => after.add(anna.view().status.kind), 10);
    await until(() => anna.heard.length === 6);
    clearInterval(looking);
    clearInterval(timer);
    expect([...after]).toEqual(['linked']);
  }, 30_000);

  it('tells a late observer what a ship said before its page was started anew', async () => {
    const outbox = createFakeOutbox();
    const before = await join('lead', 'ship', { outbox });
    for (let index = 0; index < 3; index += 1) before.room.tellEvent(PHASE, quickNow());
    await until(() => before.view().waitingCount === 0);
    await before.room.end();
    const after = await join('lead', 'ship', { outbox, boot: 'b2' });
    after.room.tellEvent(PHASE, quickNow());
    const anna = await join('anna', 'ground');
    await until(() => anna.heard.length === 4);
    expect(anna.heard.toSorted()).toEqual([...all('lead', 3), ...all('lead', 1, 'b2')]);
  });

  it('shows a ship live while it speaks, then ageing, stale and lost, and never the other way for a word of the past', async () => {
    const shipWire = await newWire();
    const lead = await join('lead', 'ship', { port: shipWire.port });
    const anna = await join('anna', 'ground');
    expect(fresh(anna, 'lead')).not.toBe('live');
    lead.room.tellState(TOLD_STATE);
    await until(() => fresh(anna, 'lead') === 'live');
    const { last } = ship(anna, 'lead')!;
    await until(() => fresh(anna, 'lead') === 'ageing', 4);
    // The very same message again, as a bad network or a bad person would send it: it is as old as it is.
    const echo = mqtt.connect(`ws://localhost:${hub.port}/link`, { clientId: 'two', username: 'two', password: 'two', protocolVersion: 4, reconnectPeriod: 0 });
    await new Promise<void>((resolve) => void echo.on('connect', () => resolve()));
    echo.on('error', () => {});
    echo.publish('quillwind/1/job-1/ship/lead/state', JSON.stringify(last!.state));
    echo.publish('quillwind/1/job-1/ship/two/state', JSON.stringify({ ...last!.state, device: 'two', boot: 'old' }));
    await pause(400);
    expect(fresh(anna, 'lead')).toBe('ageing');
    expect(fresh(anna, 'two')).not.toBe('live');
    echo.end(true);
    shipWire.cut();
    await until(() => fresh(anna, 'lead') === 'lost');
    // Who comes now gets what the broker kept, and knows that it is not live.
    const ben = await join('ben', 'ground');
    const kinds: string[] = [];
    await until(() => kinds.push(fresh(ben, 'lead')) > 0 && ship(ben, 'lead')?.last != null && fresh(ben, 'lead') === 'lost');
    expect(ship(ben, 'lead')!.last!.retained).toBe(true);
    expect(kinds).not.toContain('live');
  }, 30_000);

  it.each([300_000, -300_000])('finds out that an observer\u2019s clock is %i ms off, and is not live before', async (clockOffMilliseconds) => {
    const lead = await join('lead', 'ship');
    const anna = await join('anna', 'ground', { clockOffMilliseconds });
    const kinds: string[] = [];
    const timer = setInterval(() => lead.room.tellState(TOLD_STATE), 100);
    try {
      await until(() => {
        const seen = ship(anna, 'lead');
        const wrong = { ...quickTime.now(), wallMilliseconds: quickNow() + clockOffMilliseconds };
        const { kind } = seen === undefined ? { kind: 'unheard' } : freshness(seen, wrong);
        kinds.push(kind);
        return kind === 'live';
      });
    } finally {
      clearInterval(timer);
    }
    expect(kinds).toContain('unknown');
    const { offsetMilliseconds, errorMilliseconds } = ship(anna, 'lead')!.clock!.answered!;
    // No farther off than it says itself, and what five times a whole millisecond adds.
    expect(Math.abs(offsetMilliseconds - clockOffMilliseconds)).toBeLessThanOrEqual(errorMilliseconds + 10);
  });

  it('brings calls of the ground to every ship once, a repeated one not twice', async () => {
    const [lead, anna] = [await join('lead', 'ship'), await join('anna', 'ground')];
    anna.room.tellEvent({ kind: 'call', call: 'stop', letterIndex: null, character: null }, quickNow());
    await until(() => lead.view().groundEvents.length === 1);
    const { event } = lead.view().groundEvents[0]!;
    const twin = mqtt.connect(`ws://localhost:${hub.port}/link`, { clientId: 'ben', username: 'ben', password: 'ben', protocolVersion: 4, reconnectPeriod: 0 });
    await new Promise<void>((resolve) => void twin.on('connect', () => resolve()));
    for (let index = 0; index < 3; index += 1)
      await twin.publishAsync('quillwind/1/job-1/ground/ben/event', JSON.stringify({ ...event, device: 'ben' }), { qos: 1 });
    await until(() => lead.view().groundEvents.length === 2);
    await pause(200);
    expect(lead.view().groundEvents.map(({ device }) => device)).toEqual(['anna', 'ben']);
    twin.end(true);
  });

  it('brings an observer what another said while it was away', async () => {
    const anna = await join('anna', 'ground');
    for (const call of ['traffic', 'stop'] as const) anna.room.tellEvent({ kind: 'call', call, letterIndex: null, character: null }, quickNow());
    await until(() => anna.view().waitingCount === 0);
    const ben = await join('ben', 'ground');
    await until(() => ben.heard.length >= 2);
    await pause(200);
    expect(ben.heard.toSorted()).toEqual(all('anna', 2));
    expect(ben.view().missingCount).toBe(0);
  }, 30_000);

  it('says how old a call is that waited for the ship\u2019s link, though the observer\u2019s clock is wrong', async () => {
    const wire = await newWire();
    const lead = await join('lead', 'ship', { port: wire.port });
    const ben = await join('ben', 'ground', { clockOffMilliseconds: 300_000 });
    wire.cut();
    await pause(200);
    ben.room.tellEvent({ kind: 'call', call: 'cloud-coming', letterIndex: null, character: null }, quickNow() + 300_000);
    await quickTime.after(4000);
    wire.heal();
    await until(() => lead.view().groundEvents[0]?.ageAtArrival.kind === 'known', 25);
    const { ageAtArrival, at, event } = lead.view().groundEvents[0]!;
    const ageMilliseconds = ageAtArrival.kind === 'known' ? ageAtArrival.ageMilliseconds : Number.NaN;
    expect(ageMilliseconds).toBeGreaterThan(4000);
    expect(Math.abs(ageMilliseconds - (at.wallMilliseconds - (event.sentAtMilliseconds - 300_000)))).toBeLessThan(1000);
  }, 40_000);

  it('throws away what is hostile and goes on', async () => {
    const [lead, anna] = [await join('lead', 'ship'), await join('anna', 'ground')];
    const evil = mqtt.connect(`ws://localhost:${hub.port}/link`, {
      clientId: 'three',
      username: 'three',
      password: 'three',
      protocolVersion: 4,
      reconnectPeriod: 0,
    });
    await new Promise<void>((resolve) => void evil.on('connect', () => resolve()));
    const payloads = [
      '',
      'null',
      '[]',
      '{"v":1}',
      '\ufffd\ufffd',
      '['.repeat(3000),
      '{"__proto__":{"device":"three"}}',
      JSON.stringify({ ...TOLD_STATE, v: 1, device: 'lead', boot: 'b1', sentAtMilliseconds: Math.round(quickNow()), eventCount: 1e9 }),
      JSON.stringify({ ...TOLD_STATE, v: 1, device: 'three', boot: 'x', sentAtMilliseconds: 'now', eventCount: 0 }),
    ];
    for (const payload of payloads)
      for (const kind of ['state', 'event', 'link']) await evil.publishAsync(`quillwind/1/job-1/ship/three/${kind}`, payload, { qos: 1 });
    evil.publish('quillwind/1/job-1/ship/three/state', Buffer.from([0xff, 0xfe, 0x80]));
    // Events without end that are said to be missing.
    await evil.publishAsync(
      'quillwind/1/job-1/ship/three/link',
      JSON.stringify({
        v: 1,
        device: 'three',
        boot: 'x',
        sentAtMilliseconds: Math.round(quickNow()),
        state: 'up',
        shipIndex: 2,
        name: 'x',
        jobDigest: null,
        boots: [{ boot: 'x', count: 1_000_000 }],
      }),
      { qos: 1 },
    );
    lead.room.tellEvent(PHASE, quickNow());
    lead.room.tellState(TOLD_STATE);
    await until(() => anna.heard.length === 1 && fresh(anna, 'lead') === 'live');
    expect(anna.heard).toEqual(['lead/b1/0']);
    expect(fresh(anna, 'three')).not.toBe('live');
    evil.end(true);
  });
});
