import type { EventEmitter } from 'node:events';
import type { IncomingMessage } from 'node:http';
import { Aedes, type AuthenticateError, type AuthErrorCode, type Client } from 'aedes';
import type { WebSocket } from 'ws';
import { maySubscribe, publishFault } from './access.ts';
import { createLoginOrder } from './login-order.ts';
import { createStrangerSweep } from './stranger-sweep.ts';
import { streamFromSocket } from './socket-stream.ts';
import type { HubUser } from './users.ts';

/** A broker for the link's topics and no others. */
export interface LinkBroker {
  /** Takes a socket that speaks MQTT; `onSaid` is called when it has said who it is, or was cut. */
  take(socket: WebSocket, request: IncomingMessage, onSaid?: () => void): void;
  /** Ends the oldest connection that has not shown who it is; false when there is none. */
  makeRoom(): boolean;
  clientCount(): number;
  close(): Promise<void>;
}

export interface LinkBrokerOptions {
  readonly users: readonly HubUser[];
  /** Told what was refused to whom, for the operator; never a password. */
  readonly onRefused?: (user: string, what: string) => void;
}

const NOT_AUTHORIZED = 5 as AuthErrorCode;
const BAD_PASSWORD = 4 as AuthErrorCode;
const UNAVAILABLE = 3 as AuthErrorCode;
const BAD_IDENTIFIER = 2 as AuthErrorCode;

/** Messages a second from one client, and how many at once after a silence. */
const RATE_PER_SECOND = 40;
const RATE_BURST = 400;
/** Topics one user can leave something in. */
const RETAINED_LIMIT = 64;
/** Positions are not sent to a client that has so much unsent: the next one is as good. */
const POSITIONS_UNSENT_BYTES = 32_768;

interface ClientRecord {
  readonly user: HubUser;
  tokens: number;
  filledAtMilliseconds: number;
}

/** An MQTT 3.1.1 broker that holds every client to its own name, role and jobs. */
export async function createLinkBroker({ users, onRefused = () => {} }: LinkBrokerOptions): Promise<LinkBroker> {
  const known = new Map(users.map((user) => [user.name, user]));
  const records = new WeakMap<Client, ClientRecord>();
  const unsent = new WeakMap<object, () => number>();
  const retained = new Map<string, Set<string>>();
  const logins = createLoginOrder();
  const sweep = createStrangerSweep();
  const admissions = new WeakMap<object, () => void>();

  const broker = await Aedes.createBroker({
    connectTimeout: 10_000,
    keepaliveLimit: 120,
    drainTimeout: 5000,
    maxTopicLevels: 8,
    queueLimit: 16,
    concurrency: 1000,
    preConnect(_client, packet, done) {
      // Sessions are not kept: what a device missed it asks of its sender, and the hub's memory has a bound.
      Object.assign(packet, { clean: true });
      done(null, true);
    },
    authenticate(client, name, password, answer) {
      const refuse = (code: AuthErrorCode, what: string): void => {
        onRefused(name ?? '', what);
        answer(Object.assign(new Error(what), { returnCode: code }) as AuthenticateError, false);
      };
      if (name === undefined || password === undefined) return refuse(NOT_AUTHORIZED, 'a connection without user and password');
      if (client.id !== name) return refuse(BAD_IDENTIFIER, 'a client id that is not the user\u2019s name');
      const user = known.get(name);
      const address = client.req?.socket.remoteAddress ?? '';
      const left = new AbortController();
      client.conn.once('close', () => left.abort());
      logins.check({ name, address, password, hash: user?.password ?? null, gone: left.signal }).then(
        ({ fits, afterMilliseconds }) => {
          if (left.signal.aborted) return;
          if (!fits || user === undefined) {
            const timer = setTimeout(() => refuse(BAD_PASSWORD, 'a wrong user or password'), afterMilliseconds);
            left.signal.addEventListener('abort', () => clearTimeout(timer));
            return;
          }
          records.set(client, { user, tokens: RATE_BURST, filledAtMilliseconds: Date.now() });
          answer(null, true);
          admissions.get(client)?.();
        },
        () => {
          if (!left.signal.aborted) refuse(UNAVAILABLE, 'too many connections at once');
        },
      );
    },
    authorizePublish(client, { topic, qos, retain, payload }, done) {
      const record = client === null ? undefined : records.get(client);
      const payloadBytes = Buffer.byteLength(payload);
      const fault =
        record === undefined
          ? 'nobody'
          : (publishFault(record.user, { topic, qos, retain, payloadBytes }) ??
            rateFault(record) ??
            retainedFault(retained, record.user.name, topic, retain, payloadBytes));
      if (fault === null) return done(null);
      onRefused(record?.user.name ?? '', fault);
      done(new Error(fault));
    },
    authorizeSubscribe(client, subscription, done) {
      const user = records.get(client)?.user;
      if (user !== undefined && maySubscribe(user, subscription.topic))
        return done(null, { ...subscription, qos: subscription.qos > 1 ? 1 : subscription.qos });
      onRefused(user?.name ?? '', `listening to ${subscription.topic.slice(0, 100)}`);
      done(null, null);
    },
    authorizeForward(client, packet) {
      if (packet.qos === 0 && (unsent.get(client)?.() ?? 0) > POSITIONS_UNSENT_BYTES) return null;
      return packet;
    },
  });
  // What one client does wrong ends that client alone.
  broker.on('clientError', () => {});
  broker.on('connectionError', () => {});
  const emitter: EventEmitter = broker;
  emitter.on('error', (error) => onRefused('', `a fault of the broker: ${error instanceof Error ? error.message : String(error)}`));
  const sockets = new Set<WebSocket>();
  /** Those that have not shown who they are, the oldest first. */
  const strangers = new Set<WebSocket>();

  return {
    take(socket, request, onSaid = () => {}) {
      sockets.add(socket);
      socket.on('close', () => {
        sockets.delete(socket);
        strangers.delete(socket);
      });
      strangers.add(socket);
      const { stream, unsentBytes, admit } = streamFromSocket(socket, request.socket, onSaid, (fault, bytes) => {
        onRefused('', fault);
        sweep.leftBehind(bytes);
        onSaid();
      });
      const client = broker.handle(stream, request);
      unsent.set(client, unsentBytes);
      admissions.set(client, () => {
        strangers.delete(socket);
        admit();
      });
    },
    makeRoom() {
      const [oldest] = strangers;
      oldest?.terminate();
      return oldest !== undefined;
    },
    clientCount: () => broker.connectedClients,
    async close() {
      await new Promise<void>((resolve) => broker.close(() => resolve()));
      for (const socket of sockets) socket.terminate();
    },
  };
}

/** A leaking bucket of messages. */
function rateFault(record: ClientRecord): string | null {
  const now = Date.now();
  record.tokens = Math.min(RATE_BURST, record.tokens + ((now - record.filledAtMilliseconds) / 1000) * RATE_PER_SECOND);
  record.filledAtMilliseconds = now;
  if (record.tokens < 1) return 'too many messages';
  record.tokens -= 1;
  return null;
}

function retainedFault(retained: Map<string, Set<string>>, name: string, topic: string, retain: boolean, payloadBytes: number): string | null {
  if (!retain) return null;
  const own = retained.get(name) ?? new Set();
  retained.set(name, own);
  if (payloadBytes === 0) own.delete(topic);
  else if (!own.has(topic) && own.size >= RETAINED_LIMIT) return 'too many topics kept';
  else own.add(topic);
  return null;
}
