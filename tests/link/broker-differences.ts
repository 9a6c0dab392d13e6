import mqtt, { type IClientOptions, type MqttClient } from 'mqtt';
import { passwordOf } from '../../e2e/ground-brokers.ts';

/** What a broker does where the three that this project knows differ, a few words each. */
export type BrokerManners = Readonly<Record<(typeof MANNERS)[number], string>>;

export const MANNERS = [
  'a will, when the wire of its device is cut',
  'the last retained place, to a newcomer (on another node)',
  'a retained place after an empty one',
  'an event (QoS 1)',
  'an event in another’s name (QoS 1)',
  'listening without the right to',
  'a client id that is not the user’s name',
  'a second device under the same name',
  'another user under a device’s client id',
  'a payload of 9,000 bytes',
  'QoS 2',
  'a wrong password',
] as const;

/** Tries each against a broker; the addresses are those of its nodes, or one. */
export async function mannersOf(addresses: readonly string[]): Promise<BrokerManners> {
  const open: MqttClient[] = [];
  const near = addresses[0] ?? '';
  const far = addresses.at(-1) ?? '';
  const connect = async (address: string, user: string, options: IClientOptions = {}): Promise<Joined> => {
    const joined = await join(address, user, options);
    open.push(joined.client);
    return joined;
  };
  const topic = (rest: string): string => `quillwind/1/manners/${rest}`;
  const found: Record<string, string> = {};
  const note = (name: (typeof MANNERS)[number], words: string): void => void (found[name] = words);
  try {
    const anna = await connect(far, 'anna');
    await anna.client.subscribeAsync([topic('ship/+/link'), topic('ship/+/state'), topic('ship/+/event')], { qos: 1 });
    const willing = await connect(near, 'three', { will: { topic: topic('ship/three/link'), payload: 'lost' as unknown as Buffer, qos: 1, retain: true } });
    willing.client.stream.destroy();
    await pause(1500);
    note('a will, when the wire of its device is cut', anna.heard.some((each) => each.endsWith('link lost')) ? 'told at once' : 'not told');

    const lead = await connect(near, 'lead');
    await lead.client.publishAsync(topic('ship/lead/event'), 'event', { qos: 1 });
    await pause(800);
    note('an event (QoS 1)', anna.heard.some((each) => each.endsWith('event event')) ? 'confirmed and heard' : 'lost');
    lead.client.publish(topic('ship/lead/state'), 'place', { qos: 0, retain: true });
    await pause(800);
    const ben = await connect(far, 'ben');
    await ben.client.subscribeAsync(topic('ship/lead/state'));
    await pause(800);
    note('the last retained place, to a newcomer (on another node)', ben.heard.length > 0 ? 'told, marked as retained' : 'not told');
    lead.client.publish(topic('ship/lead/state'), '', { qos: 0, retain: true });
    await pause(800);
    ben.client.end(true);
    await pause(200);
    const again = await connect(far, 'ben');
    await again.client.subscribeAsync(topic('ship/lead/state'));
    await pause(800);
    note('a retained place after an empty one', again.heard.length === 0 ? 'gone' : 'still told');

    note('a payload of 9,000 bytes', await tried(await connect(near, 'two'), topic('ship/two/event'), 'x'.repeat(9000), 1, anna));
    note('an event in another’s name (QoS 1)', await tried(await connect(near, 'two'), topic('ship/lead/event'), 'forged', 1, anna));
    note('QoS 2', await tried(await connect(near, 'two'), topic('ship/two/event'), 'twice', 2, anna));

    const spy = await connect(near, 'spy');
    const granted = await new Promise<string>((resolve) => {
      spy.client.on('close', () => resolve('cut'));
      spy.client.subscribe(topic('ship/+/state'), { qos: 0 }, (_error, grants, packet) => {
        const code = packet?.granted?.[0] ?? grants?.[0]?.qos;
        resolve(Number(code) >= 128 ? 'refused' : 'granted');
      });
    });
    lead.client.publish(topic('ship/lead/state'), 'secret', { qos: 0 });
    await pause(800);
    note('listening without the right to', spy.heard.length > 0 ? 'HEARD' : granted === 'granted' ? 'granted, and nothing is heard' : granted);

    const strange = await connect(near, 'two', { clientId: 'somebody' }).catch(() => null);
    note('a client id that is not the user’s name', strange === null ? 'refused' : 'let in');
    const first = await connect(near, 'two');
    const gone = new Promise<boolean>((resolve) => {
      first.client.on('close', () => resolve(true));
      setTimeout(() => resolve(false), 2500);
    });
    await connect(far, 'two');
    note('a second device under the same name', (await gone) ? 'throws the first one out' : 'both stay');
    const thrownOut = new Promise<boolean>((resolve) => {
      lead.client.on('close', () => resolve(true));
      setTimeout(() => resolve(false), 2500);
    });
    const taking = await connect(far, 'ben', { clientId: 'lead' }).catch(() => null);
    const isOut = await thrownOut;
    note('another user under a device’s client id', taking === null ? 'refused' : isOut ? 'throws the device out' : 'both stay');
    const wrong = await join(near, 'lead', { password: 'wrong' }).catch((error: unknown) => (error instanceof Error ? error.message : ''));
    note('a wrong password', typeof wrong === 'string' ? 'refused' : 'LET IN');
    return found as BrokerManners;
  } finally {
    for (const client of open) client.end(true);
  }
}

interface Joined {
  readonly client: MqttClient;
  readonly heard: string[];
}

function join(address: string, user: string, options: IClientOptions): Promise<Joined> {
  const client = mqtt.connect(address, {
    protocolVersion: 4,
    clientId: user,
    username: user,
    password: passwordOf(user),
    reconnectPeriod: 0,
    clean: true,
    keepalive: 12,
    ...options,
  });
  const heard: string[] = [];
  client.on('message', (topic, payload) => heard.push(`${topic.split('/').at(-1) ?? ''} ${payload.toString().slice(0, 20)}`));
  return new Promise((resolve, reject) => {
    client.on('connect', () => resolve({ client, heard }));
    client.on('error', reject);
    client.on('close', () => reject(new Error('closed')));
  });
}

/** What becomes of one message: cut, confirmed or not, heard or thrown away. */
async function tried({ client }: Joined, topic: string, payload: string, qos: 1 | 2, listener: Joined): Promise<string> {
  const before = listener.heard.length;
  client.on('error', () => {});
  const outcome = await new Promise<'cut' | 'confirmed' | 'not confirmed'>((resolve) => {
    client.on('close', () => resolve('cut'));
    client.publish(topic, payload, { qos }, (error) => resolve(error === undefined || error === null ? 'confirmed' : 'cut'));
    setTimeout(() => resolve('not confirmed'), 3000);
  });
  await pause(800);
  client.end(true);
  await pause(200);
  const heard = listener.heard.slice(before).some((each) => each.includes(payload.slice(0, 10)));
  if (outcome === 'cut') return heard ? 'heard, then cut' : 'its sender is cut';
  return heard ? `${outcome} and heard` : `${outcome}, and thrown away`;
}

function pause(milliseconds: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, milliseconds));
}
