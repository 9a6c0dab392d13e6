import mqtt from 'mqtt';
import { startNatsCluster } from '../../e2e/nats-cluster.ts';
import { GROUND_USERS, passwordOf } from '../../e2e/ground-brokers.ts';
import type { LinkEvent } from '../../src/core/wire/link-messages.ts';
import type { NatsCertificate } from '../../src/hub/nats-files.ts';
import { deviceInstant, deviceTime } from '../../src/link/link-clock.ts';
import { joinLinkRoom, type LinkRoom } from '../../src/link/link-room.ts';
import { connectByMqtt } from '../../src/link/mqtt-connection.ts';
import { freshness } from '../../src/link/ship-seen.ts';
import { uniformFrom } from '../flight/random.ts';
import { createFakeOutbox } from './fake-outbox.ts';
import { TOLD_STATE } from './told-state.ts';

export interface CampaignPlan {
  readonly seed: number;
  /** How long a killed node stays away, and how long one is cut off from the others. */
  readonly killedSeconds: number;
  readonly cutSeconds: number;
  /** With one, that this process trusts, all speak TLS. */
  readonly certificate?: NatsCertificate;
}

/** What came of one campaign over three nodes. */
export interface CampaignFigures {
  readonly sent: number;
  /** Over all observers: what each should have heard, and did not, or twice. */
  readonly wanted: number;
  readonly lost: number;
  readonly doubled: number;
  readonly forged: number;
  /** How often a place older than a live one may be was called live, of how many looks at a live one. */
  readonly staleLive: number;
  readonly liveLooks: number;
  /** From the healing of the last cut until everybody had heard all. */
  readonly healedSeconds: number;
  readonly nodesUsed: number;
}

const JOB = 'campaign';
/** A place is live up to three seconds of age; what a look itself may take. */
const LIVE_MILLISECONDS = 3000;
const LOOK_MILLISECONDS = 600;
const HEAL_SECONDS = 120;

/** Three ships and two observers on different nodes; a node dies at a random moment and comes back, one is cut off from the others. */
export async function flyOverCluster({ seed, killedSeconds, cutSeconds, certificate }: CampaignPlan): Promise<CampaignFigures> {
  const uniform = uniformFrom(seed);
  const cluster = await startNatsCluster(GROUND_USERS, certificate);
  const rooms: LinkRoom[] = [];
  const timers: NodeJS.Timeout[] = [];
  const addressesFrom = (first: number): string => cluster.nodes.map((_, index) => cluster.nodes[(first + index) % cluster.nodes.length]?.address).join(' ');
  try {
    const heard = new Map<string, string[]>([
      ['anna', []],
      ['ben', []],
    ]);
    let forged = 0;
    const join = async (user: string, role: 'ship' | 'ground', node: number): Promise<LinkRoom> => {
      const room = await joinLinkRoom({
        connect: connectByMqtt,
        address: addressesFrom(node),
        user,
        password: passwordOf(user),
        jobId: JOB,
        role,
        boot: `boot-${user}`,
        presence: { shipIndex: role === 'ship' ? SHIPS.indexOf(user) : null, name: user, jobDigest: null },
        outbox: createFakeOutbox(),
        time: deviceTime,
        random: uniform,
        page: null,
        onEvent: (device: string, { boot, sequence }: LinkEvent) => {
          if (boot === 'forged') forged += 1;
          heard.get(user)?.push(`${device}/${boot}/${sequence}`);
        },
        onChange: () => {},
      });
      rooms.push(room);
      return room;
    };
    const ships = await Promise.all(SHIPS.map((user, index) => join(user, 'ship', index)));
    const observers = await Promise.all([join('anna', 'ground', 1), join('ben', 'ground', 2)]);
    await until(() => rooms.every((room) => room.view().status.kind === 'linked'), 30);
    const evil = forger(cluster.nodes[0]?.address ?? '');

    const told = new Map(SHIPS.map((user) => [user, 0]));
    for (const [index, room] of ships.entries()) {
      const user = SHIPS[index] ?? '';
      timers.push(
        setInterval(() => {
          told.set(user, (told.get(user) ?? 0) + 1);
          room.tellEvent({ kind: 'phase', phase: 'stroke' }, Date.now());
        }, 350),
        setInterval(() => room.tellState({ ...TOLD_STATE, shipIndex: index }), 1000),
      );
    }
    let staleLive = 0;
    let liveLooks = 0;
    timers.push(
      setInterval(() => {
        for (const observer of observers)
          for (const seen of observer.view().ships) {
            if (seen.last === null || freshness(seen, deviceInstant()).kind !== 'live') continue;
            liveLooks += 1;
            if (Date.now() - seen.last.state.sentAtMilliseconds > LIVE_MILLISECONDS + LOOK_MILLISECONDS) staleLive += 1;
          }
      }, 200),
    );

    await pause(2000 + uniform() * 4000);
    const victim = Math.floor(uniform() * cluster.nodes.length);
    await cluster.nodes[victim]?.kill();
    await pause(killedSeconds * 1000);
    await cluster.nodes[victim]?.start();
    await pause(4000 + uniform() * 4000);
    const lonely = Math.floor(uniform() * cluster.nodes.length);
    cluster.nodes[lonely]?.cutOff();
    await pause(cutSeconds * 1000);
    cluster.nodes[lonely]?.join();
    const healedAt = performance.now();
    // Some more is told after it, then silence, and everything must come together.
    await pause(3000);
    for (const timer of timers.slice(0, 2 * ships.length)) clearInterval(timer);
    const wantedOf = SHIPS.flatMap((user) => Array.from({ length: told.get(user) ?? 0 }, (_, sequence) => `${user}/boot-${user}/${sequence}`));
    const missing = (list: readonly string[]): number => wantedOf.length - new Set(list.filter((each) => !each.includes('forged'))).size;
    await until(() => [...heard.values()].every((list) => missing(list) === 0), HEAL_SECONDS).catch(() => {});
    const healedSeconds = (performance.now() - healedAt) / 1000;
    evil.end();
    const lists = [...heard.values()];
    return {
      sent: wantedOf.length,
      wanted: wantedOf.length * lists.length,
      lost: lists.reduce((sum, list) => sum + missing(list), 0),
      doubled: lists.reduce((sum, list) => sum + list.length - new Set(list).size, 0),
      forged,
      staleLive,
      liveLooks,
      healedSeconds,
      nodesUsed: cluster.nodes.length,
    };
  } finally {
    for (const timer of timers) clearInterval(timer);
    await Promise.all(rooms.map((room) => room.end()));
    await cluster.stop();
  }
}

const SHIPS: readonly string[] = ['lead', 'two', 'three'];

/** One with a password of its own who speaks for the lead, over and over. */
function forger(address: string): { end(): void } {
  const client = mqtt.connect(address, { protocolVersion: 4, clientId: 'evil', username: 'evil', password: passwordOf('evil'), reconnectPeriod: 1000 });
  client.on('error', () => {});
  const timer = setInterval(() => {
    const event = {
      v: 1,
      device: 'lead',
      boot: 'forged',
      sentAtMilliseconds: Date.now(),
      sequence: 0,
      atMilliseconds: Date.now(),
      kind: 'phase',
      phase: 'hold',
    };
    if (client.connected) client.publish(`quillwind/1/${JOB}/ship/lead/event`, JSON.stringify(event), { qos: 1 }, () => {});
  }, 1500);
  return {
    end() {
      clearInterval(timer);
      client.end(true);
    },
  };
}

async function until(holds: () => boolean | Promise<boolean>, seconds: number): Promise<void> {
  const end = Date.now() + seconds * 1000;
  while (!(await holds())) {
    if (Date.now() > end) throw new Error('never');
    await pause(100);
  }
}

function pause(milliseconds: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, milliseconds));
}
