import { mkdtemp } from 'node:fs/promises';
import { get } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import mqtt, { type MqttClient } from 'mqtt';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { WebSocket } from 'ws';
import { createHub, LINK_PATH } from '../../src/hub/create-hub.ts';
import { createLinkBroker } from '../../src/hub/link-broker.ts';
import { listenFrom } from '../../src/hub/listen.ts';
import { selfSigned } from './self-signed.ts';
import { type RunningHub, startTestHub, testUsers } from '../link/hub-for-tests.ts';

let hub: RunningHub;
const clients: MqttClient[] = [];

beforeEach(async () => {
  hub = await startTestHub();
});
afterEach(async () => {
  for (const client of clients.splice(0)) client.end(true);
  await hub.close();
});

interface Attempt {
  readonly client: MqttClient;
  readonly heard: string[];
  /** `in`, or the CONNACK's return code, or `closed`. */
  readonly outcome: string;
}

async function attempt(user: string, options: mqtt.IClientOptions = {}, address = hub.address): Promise<Attempt> {
  const client = mqtt.connect(address, { clientId: user, username: user, password: user, protocolVersion: 4, reconnectPeriod: 0, ...options });
  clients.push(client);
  const heard: string[] = [];
  client.on('message', (topic, payload) => heard.push(`${topic} ${payload.toString()}`));
  const outcome = await new Promise<string>((resolve) => {
    client.on('connect', () => resolve('in'));
    client.on('error', (error) => resolve('code' in error ? String(error.code) : error.message));
    client.on('close', () => resolve('closed'));
  });
  return { client, heard, outcome };
}

async function opened(): Promise<{ readonly socket: WebSocket; readonly heard: readonly Buffer[] }> {
  const socket = new WebSocket(hub.address, 'mqtt');
  const heard: Buffer[] = [];
  socket.on('message', (data: Buffer) => heard.push(data));
  socket.on('error', () => {});
  await new Promise((resolve) => socket.on('open', resolve));
  return { socket, heard };
}

/** A whole packet (section 3.1): protocol level 4, a clean session, the keepalive 12 s; the password has four letters. */
const connectAsLead = (password: string): Buffer => Buffer.from(`\x10\x1c\0\x04MQTT\x04\xc2\0\x0c\0\x04lead\0\x04lead\0\x04${password}`, 'latin1');

const pause = (milliseconds: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, milliseconds));
const topic = (rest: string): string => `quillwind/1/job-1/${rest}`;

function upgrade(headers: Record<string, string>, path = LINK_PATH, protocol: string[] = ['mqtt']): Promise<number | 'open'> {
  const socket = new WebSocket(`ws://localhost:${hub.port}${path}`, protocol, { headers });
  return new Promise((resolve) => {
    socket.on('open', () => {
      socket.terminate();
      resolve('open');
    });
    socket.on('unexpected-response', (_request, response) => resolve(response.statusCode ?? 0));
    socket.on('error', () => {});
  });
}

describe('the door of the hub', () => {
  it.each([
    ['its own page', { Origin: 'OWN' }, LINK_PATH, ['mqtt'], 'open'],
    ['a page that was named', { Origin: 'https://field.example' }, LINK_PATH, ['mqtt'], 'open'],
    ['a program', {}, LINK_PATH, ['mqtt'], 'open'],
    ['a page of elsewhere', { Origin: 'https://evil.example' }, LINK_PATH, ['mqtt'], 403],
    ['a page without an origin of its own', { Origin: 'null' }, LINK_PATH, ['mqtt'], 403],
    ['another path', {}, '/other', ['mqtt'], 404],
    ['another protocol', {}, LINK_PATH, ['chat'], 400],
  ] as const)('for %s', async (_name, headers, path, protocol, expected) => {
    const given = Object.fromEntries(Object.entries(headers).map(([name, value]) => [name, value === 'OWN' ? `http://localhost:${hub.port}` : value]));
    expect(await upgrade(given, path, [...protocol])).toBe(expected);
  });

  it('is shut behind whoever talks no MQTT', async () => {
    for (const send of [
      (socket: WebSocket) => socket.send('GET /'),
      (socket: WebSocket) => socket.send(Buffer.from('not mqtt at all')),
      (socket: WebSocket) => socket.send(Buffer.alloc(20_000)),
    ]) {
      const socket = new WebSocket(hub.address, 'mqtt');
      socket.on('error', () => {});
      await new Promise((resolve) => socket.on('open', resolve));
      const closed = new Promise((resolve) => socket.on('close', resolve));
      send(socket);
      await closed;
    }
    expect((await attempt('lead')).outcome).toBe('in');
  });
});

describe('who is let in', () => {
  it.each([
    ['a user with its password', 'lead', {}, 'in'],
    ['a wrong password', 'lead', { password: 'x' }, '4'],
    ['an unknown user', 'mallory', {}, '4'],
    ['a user under another client id', 'lead', { clientId: 'two' }, '2'],
    ['nobody', 'lead', { username: undefined, password: undefined }, '5'],
    ['MQTT 5, which the hub does not speak', 'lead', { protocolVersion: 5 }, '1'],
  ] as const)('%s', async (_name, user, options, expected) => {
    expect((await attempt(user, options as mqtt.IClientOptions)).outcome).toBe(expected);
  });

  it('may say a little behind its CONNECT, without waiting for the answer (MQTT 3.1.1, section 3.1.4)', async () => {
    const { socket, heard } = await opened();
    const ping = Buffer.from([0xc0, 0]);
    socket.send(Buffer.concat([connectAsLead('lead'), ping]));
    socket.send(ping);
    await expect.poll(() => Buffer.concat(heard).toString('hex')).toBe('20020000d000d000');
    socket.terminate();
  });

  it('not who says much while its password is looked at: it is cut at once', async () => {
    const { socket } = await opened();
    const gone = new Promise((resolve) => void socket.on('close', () => resolve('cut')));
    socket.send(connectAsLead('nope'));
    await pause(100);
    socket.send(Buffer.alloc(3000));
    expect(await Promise.race([gone, pause(400)])).toBe('cut');
    await pause(700);
    expect(hub.refused).toEqual([['', 'too much before a password']]);
  });

  it('one at a time under one name', async () => {
    const first = await attempt('lead');
    const gone = new Promise<void>((resolve) => void first.client.on('close', () => resolve()));
    expect((await attempt('lead')).outcome).toBe('in');
    await gone;
  });
});

describe('a client without rights', () => {
  it('learns nothing', async () => {
    const lead = await attempt('lead');
    lead.client.publish(topic('ship/lead/state'), 'kept', { retain: true });
    const spies = await Promise.all(['nobody', 'elsewhere'].map((user) => attempt(user)));
    for (const { client } of spies) {
      for (const filter of ['#', '+/+/+/+/+/+', topic('ship/+/state'), topic('ship/lead/state'), '$SYS/#', 'quillwind/1/another-job/ship/#'])
        client.subscribe(filter, { qos: 1 }, () => {});
    }
    await pause(200);
    lead.client.publish(topic('ship/lead/state'), 'fresh', { retain: true });
    lead.client.publish(topic('ship/lead/event'), 'event', { qos: 1 });
    await pause(300);
    expect(spies.map(({ outcome }) => outcome)).toEqual(['in', 'in']);
    expect(spies.map(({ heard }) => heard)).toEqual([[], []]);
  });

  it('changes nothing', async () => {
    const anna = await attempt('anna');
    await anna.client.subscribeAsync([topic('ship/+/state'), topic('ship/+/event'), topic('ship/+/link')], { qos: 1 });
    const lead = await attempt('lead');
    lead.client.publish(topic('ship/lead/state'), 'true', { retain: true });
    await pause(100);
    for (const user of ['nobody', 'elsewhere', 'ben', 'two']) {
      for (const [rest, retain] of [
        ['ship/lead/state', true],
        ['ship/lead/event', false],
        ['ship/lead/link', true],
      ] as const) {
        const hostile = await attempt(user);
        hostile.client.on('error', () => {});
        hostile.client.publish(topic(rest), rest.endsWith('event') ? 'false' : '', { qos: 1, retain }, () => {});
        await pause(60);
        hostile.client.end(true);
      }
    }
    await pause(200);
    expect(anna.heard).toEqual([`${topic('ship/lead/state')} true`]);
    const ben = await attempt('ben');
    await ben.client.subscribeAsync(topic('ship/+/state'));
    await pause(100);
    expect(ben.heard).toEqual([`${topic('ship/lead/state')} true`]);
  });

  it('leaves no will behind in another\u2019s name', async () => {
    const anna = await attempt('anna');
    await anna.client.subscribeAsync(topic('ship/+/link'), { qos: 1 });
    const two = await attempt('two', { will: { topic: topic('ship/lead/link'), payload: 'lost' as unknown as Buffer, qos: 1, retain: true } });
    two.client.stream.destroy();
    await pause(300);
    expect(anna.heard).toEqual([]);
  });
});

describe('limits', () => {
  it('end a client that floods, and nobody else', async () => {
    const [lead, anna] = await Promise.all([attempt('lead'), attempt('anna')]);
    lead.client.on('error', () => {});
    const gone = new Promise<void>((resolve) => void lead.client.on('close', () => resolve()));
    for (let index = 0; index < 1000; index += 1) lead.client.publish(topic('ship/lead/state'), String(index));
    await gone;
    expect(hub.refused).toContainEqual(['lead', 'too many messages']);
    expect(anna.client.connected).toBe(true);
  });

  it('keep what one user leaves behind within a bound', async () => {
    const lead = await attempt('lead');
    lead.client.on('error', () => {});
    const gone = new Promise<void>((resolve) => void lead.client.on('close', () => resolve()));
    for (let job = 0; job < 65; job += 1) lead.client.publish(`quillwind/1/job-${job}/ship/lead/state`, 'x', { retain: true });
    await gone;
    expect(hub.refused).toContainEqual(['lead', 'too many topics kept']);
  });

  it('do not let a client that reads nothing hold up the others', async () => {
    const [lead, anna, ben] = await Promise.all([attempt('lead'), attempt('anna'), attempt('ben')]);
    await Promise.all([anna, ben].map(({ client }) => client.subscribeAsync(topic('ship/+/event'), { qos: 0 })));
    const stalled = ben.client.stream as unknown as { socket?: { _socket?: { pause(): void } } };
    stalled.socket?._socket?.pause();
    const payload = 'x'.repeat(8000);
    for (let round = 0; round < 12; round += 1) {
      for (let index = 0; index < 30; index += 1) lead.client.publish(topic('ship/lead/event'), payload, { qos: 0 });
      await pause(800);
    }
    expect(anna.heard.length).toBe(360);
  }, 30_000);
});

describe('with a certificate', () => {
  it('serves and links over TLS alone, and a client that does not know the certificate stays out', async () => {
    const folder = await mkdtemp(join(tmpdir(), 'quillwind-'));
    const certificate = selfSigned();
    const broker = await createLinkBroker({ users: await testUsers() });
    const server = createHub({ distDirectory: folder, broker, certificate });
    const port = await listenFrom(server, 0);
    const address = `wss://localhost:${port}${LINK_PATH}`;
    expect((await attempt('lead', { ca: certificate.cert }, address)).outcome).toBe('in');
    expect((await attempt('two', {}, address)).outcome).toMatch(/CERT/);
    const plain = await new Promise((resolve) => get(`http://localhost:${port}/`, resolve).on('error', () => resolve('no answer')));
    expect(plain).toBe('no answer');
    await broker.close();
    server.closeAllConnections();
    await new Promise((resolve) => server.close(resolve));
  });
});
