import { LINK_PAYLOAD_BYTES } from '../core/wire/link-schemas.ts';
import { LINK_TOPIC_ROOT } from '../core/wire/link-topics.ts';
import { heardBy } from './access.ts';
import type { HubUser } from './users.ts';

/** One machine of the cluster. */
export interface NatsNode {
  /** Also the name of its file. */
  readonly name: string;
  /** Where devices connect: `wss://HOST:PORT/mqtt`. */
  readonly linkPort: number;
  /** Where the other nodes reach it, and the addresses at which it reaches them: `HOST:PORT`. */
  readonly routePort: number;
  readonly routes: readonly string[];
  /** What it keeps on its disk. */
  readonly storeFolder: string;
  /** Without one it speaks plain ws, for this machine alone. */
  readonly certificate?: NatsCertificate;
}

/** Files in PEM. The nodes show each other the certificate that they show devices, and believe what the authority signed. */
export interface NatsCertificate {
  readonly certPath: string;
  readonly keyPath: string;
  readonly authorityPath: string;
}

/** A user with the password that the broker holds it to. */
export interface NatsUser extends Omit<HubUser, 'password'> {
  readonly password: string;
}

/** The longest topic with its length and the packet's head, rounded up. */
const TOPIC_BYTES = 256;

/**
 * A node's file for nats-server 2.9 and later: MQTT over WebSocket and nothing else for devices, the nodes known by address
 * alone, what is kept on as many nodes as there are, up to three. Users and rights stand in a file of their own, the same
 * for every node ({@link natsUsers}). Its MQTT lives in subjects whose parts a dot divides; ids of the link hold none.
 */
export function natsNode({ name, linkPort, routePort, routes, storeFolder, certificate }: NatsNode, clusterPassword: string): string {
  const replicas = Math.min(3, routes.length + 1);
  const isSecure = certificate !== undefined;
  const tls = ({ certPath, keyPath }: NatsCertificate, ...more: readonly string[]): string[] => [
    '  tls {',
    `    cert_file: ${JSON.stringify(certPath)}`,
    `    key_file: ${JSON.stringify(keyPath)}`,
    ...more,
    '  }',
  ];
  return `${[
    `server_name: ${name}`,
    '# Its own protocol is for this machine alone; devices come by the WebSocket below.',
    'listen: "127.0.0.1:-1"',
    `max_payload: ${LINK_PAYLOAD_BYTES + TOPIC_BYTES}`,
    // What a client has not taken is cut, as the hub does.
    'max_pending: 1MB',
    'jetstream {',
    `  store_dir: ${JSON.stringify(storeFolder)}`,
    '  max_memory_store: 64MB',
    '  max_file_store: 256MB',
    '}',
    'cluster {',
    '  name: quillwind',
    `  listen: "${isSecure ? '0.0.0.0' : '127.0.0.1'}:${routePort}"`,
    '  # Only the routes below: a node tells devices of no other.',
    '  no_advertise: true',
    '  connect_retries: 1000000',
    `  authorization { user: node, password: ${JSON.stringify(clusterPassword)}, timeout: 5 }`,
    ...(isSecure ? tls(certificate, `    ca_file: ${JSON.stringify(certificate.authorityPath)}`, '    timeout: 5') : []),
    `  routes: [${routes.map((address) => JSON.stringify(`nats-route://node:${encodeURIComponent(clusterPassword)}@${address}`)).join(', ')}]`,
    '}',
    'websocket {',
    `  listen: "${isSecure ? '0.0.0.0' : '127.0.0.1'}:${linkPort}"`,
    ...(isSecure ? tls(certificate) : ['  no_tls: true']),
    '  handshake_timeout: "5s"',
    '}',
    'mqtt {',
    // It offers MQTT by WebSocket only with a port of its own for it: for this machine alone.
    '  listen: "127.0.0.1:-1"',
    '  ack_wait: "5s"',
    '  max_ack_pending: 200',
    `  stream_replicas: ${replicas}`,
    `  consumer_replicas: ${replicas}`,
    '}',
    'include "users.conf"',
  ].join('\n')}\n`;
}

/**
 * Who may write and read what, by subject: the same as {@link heardBy} and `publishFault` say for the hub. All in one account,
 * so that jobs are divided by rights alone; `$MQTT.sub` is the broker's own way to each listener.
 */
export function natsUsers(users: readonly NatsUser[]): string {
  const lines = ['accounts {', '  link {', '    jetstream: enabled', '    users: ['];
  for (const { name, role, jobs, password } of users) {
    const roots = (jobs.includes('*') ? ['*'] : jobs).map((job) => `${subjectFrom(LINK_TOPIC_ROOT)}.${job}`);
    const mayWrite = role === 'none' ? [] : roots.map((root) => `${root}.${role}.${name}.>`);
    const mayHear = heardBy(role).flatMap(({ whose, kind, isNamed }) => roots.map((root) => `${root}.${whose}.*.${kind}${isNamed ? `.${name}` : ''}`));
    lines.push(
      `      { user: ${name}, password: ${JSON.stringify(password)}, permissions: {`,
      `        publish: { allow: ${JSON.stringify(mayWrite)} }`,
      `        subscribe: { allow: ${JSON.stringify(['$MQTT.sub.>', ...mayHear])} } } }`,
    );
  }
  return `${[...lines, '    ]', '  }', '}'].join('\n')}\n`;
}

function subjectFrom(topic: string): string {
  return topic.replaceAll('/', '.');
}
