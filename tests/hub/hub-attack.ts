import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { connect, type Socket } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import mqtt from 'mqtt';
import { hashFromPassword } from '../../src/hub/password-hash.ts';
import { textFromUsers } from '../../src/hub/users.ts';

/** What an attack from outside did to a hub that runs in a process of its own. */
export interface AttackFigures {
  /** Clients without a password, and what they sent before they were cut. */
  readonly strangers: number;
  readonly sentMegabytes: number;
  readonly grownMegabytes: number;
  readonly peakMegabytes: number;
  /** Strangers still connected when all was sent. */
  readonly stillConnected: number;
  /** Wrong logins under way, and how long a right first one took beside them. */
  readonly wrongLogins: number;
  readonly goodLoginSeconds: number;
  /** The same under a name that wrong ones were tried with, from elsewhere. */
  readonly namedLoginSeconds: number;
}

const STRANGERS = 200;
const STRANGER_BYTES = 690_000;
const WRONG = 900;
const USERS = ['lead', 'two', 'three', 'observer-1', 'observer-2'] as const;

/** Runs the whole list against a hub of its own, with passwords that cost what they cost in use. */
export async function attackHub(): Promise<AttackFigures> {
  const folder = mkdtempSync(join(tmpdir(), 'quillwind-attack-'));
  const usersPath = join(folder, 'users.json');
  const users = await Promise.all(
    USERS.map(async (name) => ({
      name,
      role: name.startsWith('o') ? ('ground' as const) : ('ship' as const),
      jobs: ['*'],
      password: await hashFromPassword(name),
    })),
  );
  writeFileSync(usersPath, textFromUsers(users));
  const child = spawn(process.execPath, ['--import', 'tsx', fileURLToPath(new URL('../bench/hub-process.ts', import.meta.url)), usersPath], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  try {
    const address = await new Promise<string>((resolve, reject) => {
      child.stdout.once('data', (data: Buffer) => resolve(data.toString().trim()));
      child.once('exit', (code) => reject(new Error(`the hub ended with ${code}`)));
    });
    const port = Number(new URL(address).port);
    await login(address, 'two', '127.0.0.1');
    return { ...(await floodWithout(port, child.pid ?? 0)), ...(await guess(address)) };
  } finally {
    child.removeAllListeners('exit');
    child.kill();
    rmSync(folder, { recursive: true, force: true });
  }
}

type StrangerFigures = Pick<AttackFigures, 'strangers' | 'sentMegabytes' | 'grownMegabytes' | 'peakMegabytes' | 'stillConnected'>;

/** Clients without a password that send what they can, each in one of five ways. */
async function floodWithout(port: number, processId: number): Promise<StrangerFigures> {
  // What the engine makes of code that it sees for the first time is not what is measured.
  for (let client = 0; client < 5 * WAYS.length; client += 1) await stranger(port, WAYS[client % WAYS.length]!, 20_000);
  await pause(1000);
  const before = residentMegabytes(processId);
  let peakMegabytes = before;
  const looking = setInterval(() => (peakMegabytes = Math.max(peakMegabytes, residentMegabytes(processId))), 20);
  const outcomes = await Promise.all(Array.from({ length: STRANGERS }, (_, client) => stranger(port, WAYS[client % WAYS.length]!, STRANGER_BYTES)));
  await pause(500);
  clearInterval(looking);
  return {
    strangers: STRANGERS,
    sentMegabytes: outcomes.reduce((sum, { sentBytes }) => sum + sentBytes, 0) / 1e6,
    stillConnected: outcomes.filter(({ isOpen }) => isOpen).length,
    grownMegabytes: peakMegabytes - before,
    peakMegabytes,
  };
}

/** What a stranger sends: bytes of the first message, and what follows again and again. */
interface Way {
  readonly first: Buffer;
  readonly again: Buffer;
}

const junk = Buffer.alloc(8000, 0x61);
const publish = packet(0x30, text('quillwind/1/job/ship/lead/state'), junk.subarray(0, 7000));
const WAYS: readonly Way[] = [
  // A packet that says it will have 256 MB.
  { first: frame(Buffer.from([0x10, 0xff, 0xff, 0xff, 0x7f])), again: frame(junk) },
  // A message of WebSocket that never ends.
  { first: frame(Buffer.from([0x10, 0xff, 0x07]), { isLast: false }), again: frame(junk, { isLast: false, isContinued: true }) },
  // A name without a password, and all one has to say behind.
  { first: frame(connectPacket('lead', undefined)), again: frame(publish) },
  // A wrong password, and all behind while it is looked at.
  { first: frame(connectPacket('lead', 'wrong')), again: frame(publish) },
  // No CONNECT at all.
  { first: frame(publish), again: frame(publish) },
];

async function stranger(port: number, { first, again }: Way, bytes: number): Promise<{ readonly sentBytes: number; readonly isOpen: boolean }> {
  const socket = await upgraded(port);
  if (socket === null) return { sentBytes: 0, isOpen: false };
  let isOpen = true;
  socket.on('close', () => (isOpen = false));
  let sentBytes = first.length;
  socket.write(first);
  const until = performance.now() + 8000;
  while (isOpen && sentBytes < bytes && performance.now() < until) {
    if (!socket.write(again))
      await Promise.race([new Promise((resolve) => socket.once('drain', resolve)), new Promise((resolve) => socket.once('close', resolve)), pause(500)]);
    sentBytes += again.length;
  }
  for (let waited = 0; isOpen && waited < 20; waited += 1) await pause(100);
  const wasOpen = isOpen;
  socket.destroy();
  return { sentBytes: socket.bytesWritten, isOpen: wasOpen };
}

function upgraded(port: number): Promise<Socket | null> {
  return new Promise((resolve) => {
    const socket = connect(port, '127.0.0.1');
    socket.on('error', () => resolve(null));
    socket.on('connect', () =>
      socket.write(
        `GET /link HTTP/1.1\r\nHost: localhost:${port}\r\nUpgrade: websocket\r\nConnection: Upgrade\r\nSec-WebSocket-Key: AAAAAAAAAAAAAAAAAAAAAA==\r\nSec-WebSocket-Version: 13\r\nSec-WebSocket-Protocol: mqtt\r\n\r\n`,
      ),
    );
    socket.once('data', () => resolve(socket));
    socket.once('close', () => resolve(null));
  });
}

/** Nine hundred wrong logins at once, with names that there are and names that there are not; right ones beside them. */
async function guess(address: string): Promise<Pick<AttackFigures, 'wrongLogins' | 'goodLoginSeconds' | 'namedLoginSeconds'>> {
  const wrong = Array.from({ length: WRONG }, (_, index) => {
    const name = index % 2 === 0 ? 'lead' : `stranger-${index}`;
    return mqtt.connect(address, {
      clientId: name,
      username: name,
      password: `wrong-${index}`,
      reconnectPeriod: 0,
      localAddress: '127.0.0.1',
    } as mqtt.IClientOptions);
  });
  for (const client of wrong) client.on('error', () => {});
  await pause(1000);
  const goodLoginSeconds = await login(address, 'observer-1', '127.0.0.1');
  const namedLoginSeconds = await login(address, 'lead', '127.0.0.2');
  for (const client of wrong) client.end(true);
  return { wrongLogins: WRONG, goodLoginSeconds, namedLoginSeconds };
}

async function login(address: string, name: string, localAddress: string): Promise<number> {
  const startedAt = performance.now();
  const client = mqtt.connect(address.replace('localhost', '127.0.0.1'), {
    clientId: name,
    username: name,
    password: name,
    reconnectPeriod: 0,
    wsOptions: { localAddress },
  });
  const seconds = await new Promise<number>((resolve) => {
    client.on('connect', () => resolve((performance.now() - startedAt) / 1000));
    client.on('error', () => resolve(Number.POSITIVE_INFINITY));
    client.on('close', () => resolve(Number.POSITIVE_INFINITY));
  });
  client.end(true);
  return seconds;
}

/** A frame of WebSocket as a client sends it (RFC 6455, section 5.2), under a mask of zeros. */
function frame(payload: Buffer, { isLast = true, isContinued = false } = {}): Buffer {
  const head = [(isLast ? 0x80 : 0) | (isContinued ? 0 : 2)];
  if (payload.length < 126) head.push(0x80 | payload.length);
  else head.push(0x80 | 126, payload.length >> 8, payload.length & 255);
  return Buffer.concat([Buffer.from([...head, 0, 0, 0, 0]), payload]);
}

/** MQTT 3.1.1, section 2.2. */
function packet(type: number, ...parts: readonly Buffer[]): Buffer {
  const body = Buffer.concat(parts);
  const length: number[] = [];
  for (let left = body.length; left > 0 || length.length === 0; left >>= 7) length.push((left & 127) | (left > 127 ? 128 : 0));
  return Buffer.concat([Buffer.from([type, ...length]), body]);
}

function text(words: string): Buffer {
  const bytes = Buffer.from(words);
  return Buffer.concat([Buffer.from([bytes.length >> 8, bytes.length & 255]), bytes]);
}

function connectPacket(name: string, password: string | undefined): Buffer {
  const flags = password === undefined ? 0x82 : 0xc2;
  return packet(0x10, text('MQTT'), Buffer.from([4, flags, 0, 12]), text(name), text(name), password === undefined ? Buffer.alloc(0) : text(password));
}

function residentMegabytes(processId: number): number {
  const kilobytes = /VmRSS:\s+(\d+) kB/.exec(readFileSync(`/proc/${processId}/status`, 'utf8'))?.[1];
  return Number(kilobytes ?? Number.NaN) / 1024;
}

function pause(milliseconds: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, milliseconds));
}
