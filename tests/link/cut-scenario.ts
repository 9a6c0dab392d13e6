import type { LinkEvent } from '../../src/core/formats/link-messages.ts';
import { deviceInstant } from '../../src/link/link-clock.ts';
import { joinLinkRoom, type LinkRoom } from '../../src/link/link-room.ts';
import { connectByMqtt } from '../../src/link/mqtt-connection.ts';
import { freshness } from '../../src/link/ship-seen.ts';
import type { ToldState } from '../../src/link/ship-teller.ts';
import { cuttableWire } from './cuttable-wire.ts';
import { createFakeOutbox } from './fake-outbox.ts';

/** What came of three ships and two observers whose links are cut in turn. */
export interface CutOutcome {
  /** Over both observers: events told and never heard, and events heard more than once. */
  readonly lost: number;
  readonly doubled: number;
  readonly told: number;
  /** How often a ship that had been cut off for longer than its place may count was shown live or ageing. */
  readonly staleShownLive: number;
  /** From the last cut's healing until everything had been heard. */
  readonly healedSeconds: number;
}

const SHIPS = ['lead', 'two', 'three'] as const;
const CUT_SECONDS = 16;
/** A place counts up to ten seconds; then a message may have been under way for one. */
const COUNTS_SECONDS = 11;

const STATE: ToldState = {
  shipIndex: 0,
  fix: { ageSeconds: 0.5, latitudeDegrees: 43.9, longitudeDegrees: -74.4, altitudeMetres: 3200, trackDegreesTrue: 70, groundSpeedMetresPerSecond: 55 },
  phase: 'stroke',
  smoke: 'on',
  strokeNumber: 1,
  strokeCount: 9,
  character: 'S',
  windFromDegreesTrue: 70,
  windSpeedMetresPerSecond: 6,
};

/** Runs the cut in real time against any broker of this machine whose users have the given passwords. */
export async function cutScenario(address: string, passwordOf: (name: string) => string): Promise<CutOutcome> {
  const { hostname, port, pathname } = new URL(address);
  const [shipWire, groundWire] = [await cuttableWire(Number(port), hostname), await cuttableWire(Number(port), hostname)];
  const heard = new Map<string, string[]>();
  const rooms = new Map<string, LinkRoom>();
  const join = async (user: string, role: 'ship' | 'ground', throughPort: number, through = 'localhost'): Promise<void> => {
    const own: string[] = [];
    heard.set(user, own);
    rooms.set(
      user,
      await joinLinkRoom({
        connect: connectByMqtt,
        address: `ws://${through}:${throughPort}${pathname}`,
        user,
        password: passwordOf(user),
        jobId: 'cut',
        role,
        boot: `${user}-boot`,
        presence: { shipIndex: role === 'ship' ? SHIPS.findIndex((name) => name === user) : null, name: user, jobDigest: null },
        outbox: createFakeOutbox(),
        now: deviceInstant,
        random: Math.random,
        page: null,
        onEvent: (device: string, { boot, sequence }: LinkEvent) => own.push(`${device}/${boot}/${sequence}`),
        onChange: () => {},
      }),
    );
    await until(() => rooms.get(user)?.view().status.kind === 'linked', 20);
  };
  let told = 0;
  let staleShownLive = 0;
  const tellAll = (): void => {
    told += 1;
    for (const name of SHIPS) rooms.get(name)?.tellEvent({ kind: 'phase', phase: 'stroke' }, Date.now());
  };
  try {
    await join('lead', 'ship', shipWire.port);
    await join('two', 'ship', Number(port), hostname);
    await join('three', 'ship', Number(port), hostname);
    await join('anna', 'ground', groundWire.port);
    await join('ben', 'ground', Number(port), hostname);
    const timer = setInterval(() => {
      for (const name of SHIPS) rooms.get(name)?.tellState(STATE);
    }, 500);
    tellAll();
    await pause(1500);
    shipWire.cut();
    for (let passed = 1; passed <= CUT_SECONDS; passed += 1) {
      tellAll();
      if (passed === CUT_SECONDS / 2) groundWire.cut();
      await pause(1000);
      if (passed <= COUNTS_SECONDS) continue;
      for (const observer of ['anna', 'ben']) {
        const lead = rooms.get(observer)?.view().ships.find(({ device }) => device === 'lead');
        if (lead !== undefined && ['live', 'ageing'].includes(freshness(lead, deviceInstant()).kind)) staleShownLive += 1;
      }
    }
    shipWire.heal();
    groundWire.heal();
    const healedAt = Date.now();
    const wanted = told * SHIPS.length;
    const whole = (): boolean => ['anna', 'ben'].every((name) => new Set(heard.get(name)).size === wanted);
    await until(whole, 90).catch(() => {});
    const healedSeconds = (Date.now() - healedAt) / 1000;
    clearInterval(timer);
    await pause(1000);
    const counts = ['anna', 'ben'].map((name) => heard.get(name) ?? []);
    return {
      lost: counts.reduce((sum, events) => sum + wanted - new Set(events).size, 0),
      doubled: counts.reduce((sum, events) => sum + events.length - new Set(events).size, 0),
      told: wanted,
      staleShownLive,
      healedSeconds,
    };
  } finally {
    await Promise.all([...rooms.values()].map((room) => room.end()));
    await Promise.all([shipWire.close(), groundWire.close()]);
  }
}

async function until(holds: () => boolean, seconds: number): Promise<void> {
  const end = Date.now() + seconds * 1000;
  while (!holds()) {
    if (Date.now() > end) throw new Error(`not within ${seconds} s`);
    await pause(50);
  }
}

function pause(milliseconds: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, milliseconds));
}
