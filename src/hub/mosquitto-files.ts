import { LINK_PAYLOAD_BYTES } from '../core/wire/link-schemas.ts';
import { LINK_TOPIC_ROOT } from '../core/wire/link-topics.ts';
import type { HubUser } from './users.ts';

/**
 * The access file that makes Mosquitto hold devices to the same rules as the hub: each user writes below its own name
 * in its role, and reads what its role reads. Mosquitto answers a forbidden message as if it had taken it and throws
 * it away.
 */
export function mosquittoAccess(users: readonly HubUser[]): string {
  const lines = ['# Quillwind: who may write and read what. Names are user names and client ids alike.'];
  for (const { name, role, jobs } of users) {
    if (role === 'none') continue;
    lines.push('', `user ${name}`);
    for (const job of jobs.includes('*') ? ['+'] : jobs) {
      const all = `${LINK_TOPIC_ROOT}/${job}`;
      lines.push(`topic write ${all}/${role}/${name}/#`);
      const read =
        role === 'ship'
          ? ['ship/+/state', 'ship/+/link', 'ship/+/event', 'ground/+/link', 'ground/+/event', `ground/+/ask/${name}`, `ground/+/answer/${name}`]
          : [
              'ship/+/state',
              'ship/+/link',
              'ship/+/event',
              `ship/+/ask/${name}`,
              `ship/+/answer/${name}`,
              'ground/+/link',
              'ground/+/event',
              `ground/+/ask/${name}`,
              `ground/+/answer/${name}`,
            ];
      lines.push(...read.map((topic) => `topic read ${all}/${topic}`));
    }
  }
  return `${lines.join('\n')}\n`;
}

export interface MosquittoOptions {
  readonly port: number;
  /** A plain listener of this machine alone, without which Debian's 2.0.11 does not start. */
  readonly plainPort: number;
  readonly accessPath: string;
  readonly passwordPath: string;
  /** Certificate and key in PEM; without them it speaks plain ws, for this machine alone. */
  readonly certificate?: { readonly certPath: string; readonly keyPath: string };
}

/** The longest topic with its length and the packet's head, rounded up. */
const TOPIC_BYTES = 256;

/**
 * A configuration of Mosquitto 2 for the link: WebSockets, passwords, access, limits, and nothing kept on disk.
 *
 * @oracle
 */
export function mosquittoConfiguration({ port, plainPort, accessPath, passwordPath, certificate }: MosquittoOptions): string {
  return `${[
    `listener ${plainPort} 127.0.0.1`,
    // For WebSockets it takes the name of an interface, and listens on all of them when it is given an address.
    `listener ${port}${certificate === undefined ? ' lo' : ''}`,
    'protocol websockets',
    ...(certificate === undefined ? [] : [`certfile ${certificate.certPath}`, `keyfile ${certificate.keyPath}`]),
    'allow_anonymous false',
    `password_file ${passwordPath}`,
    `acl_file ${accessPath}`,
    'use_username_as_clientid true',
    `max_packet_size ${LINK_PAYLOAD_BYTES + TOPIC_BYTES}`,
    // In 2.0.11 the limit above does not hold for WebSockets; this one does.
    `message_size_limit ${LINK_PAYLOAD_BYTES}`,
    'max_keepalive 120',
    'max_queued_messages 200',
    'max_inflight_messages 20',
    'persistent_client_expiration 1h',
    'persistence false',
  ].join('\n')}\n`;
}
