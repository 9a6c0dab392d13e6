import { WebSocket } from 'ws';

/** As little of MQTT 3.1.1 as a load needs, so that hundreds of clients cost less than the broker they load. */
export interface LightClient {
  publish(topic: string, payload: string): void;
  subscribe(topic: string): Promise<void>;
  close(): void;
}

const text = (value: string): Buffer => {
  const bytes = Buffer.from(value);
  return Buffer.concat([Buffer.from([bytes.length >> 8, bytes.length & 255]), bytes]);
};

/** A packet: type and flags, the remaining length in sevens of bits (MQTT 3.1.1, section 2.2.3), the body. */
function packet(first: number, body: Buffer): Buffer {
  const length: number[] = [];
  for (let left = body.length; ; left >>= 7) {
    length.push((left & 127) | (left > 127 ? 128 : 0));
    if (left <= 127) break;
  }
  return Buffer.concat([Buffer.from([first, ...length]), body]);
}

/** Connects with its name as client id and user; rejects when it is not let in. */
export function lightClient(address: string, user: string, password: string, onPublish: (payload: Buffer) => void): Promise<LightClient> {
  return new Promise((resolve, reject) => {
    const socket = new WebSocket(address, 'mqtt', { perMessageDeflate: false });
    const granted: (() => void)[] = [];
    let rest: Buffer = Buffer.alloc(0);
    socket.on('error', reject);
    socket.on('close', () => reject(new Error(`${user} was thrown out`)));
    socket.on('open', () => {
      // Protocol MQTT, level 4, clean session with user and password, keepalive 60 s.
      const head = Buffer.concat([text('MQTT'), Buffer.from([4, 0b1100_0010, 0, 60])]);
      socket.send(packet(0x10, Buffer.concat([head, text(user), text(user), text(password)])));
    });
    socket.on('message', (data: Buffer) => {
      rest = rest.length === 0 ? data : Buffer.concat([rest, data]);
      for (let at = 0; ;) {
        const [first, bodyAt, end] = frameAt(rest, at);
        if (end < 0) {
          rest = rest.subarray(at);
          break;
        }
        const kind = first >> 4;
        if (kind === 2) {
          if (rest[bodyAt + 1] === 0) resolve(client);
          else reject(new Error(`${user} was refused with ${rest[bodyAt + 1]}`));
        } else if (kind === 9) granted.shift()?.();
        else if (kind === 3) onPublish(rest.subarray(bodyAt + 2 + rest.readUInt16BE(bodyAt), end));
        at = end;
      }
    });
    const client: LightClient = {
      publish: (topic, payload) => socket.send(packet(0x30, Buffer.concat([text(topic), Buffer.from(payload)]))),
      subscribe(topic) {
        const done = new Promise<void>((given) => void granted.push(given));
        socket.send(packet(0x82, Buffer.concat([Buffer.from([0, 1]), text(topic), Buffer.from([0])])));
        return done;
      },
      close: () => socket.terminate(),
    };
  });
}

/** First byte, where the body begins and where the packet ends; an end of -1 for one that is not whole yet. */
function frameAt(bytes: Buffer, at: number): readonly [number, number, number] {
  let length = 0;
  for (let index = 1; index <= 4; index += 1) {
    const byte = bytes[at + index];
    if (byte === undefined) return [0, 0, -1];
    length |= (byte & 127) << (7 * (index - 1));
    if (byte < 128) {
      const bodyAt = at + index + 1;
      return bodyAt + length <= bytes.length ? [bytes[at] ?? 0, bodyAt, bodyAt + length] : [0, 0, -1];
    }
  }
  throw new RangeError('a packet with a length that MQTT does not have');
}
