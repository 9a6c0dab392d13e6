import { mkdir, writeFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { natsNode, natsUsers } from './nats-files.ts';
import { newPassword } from './password-hash.ts';
import type { HubUser } from './users.ts';

export interface NatsCommand {
  readonly users: readonly HubUser[];
  /** Hosts of the nodes, as devices and the other nodes reach them. */
  readonly hosts: readonly string[];
  /** Where the files are written. */
  readonly folder: string;
  readonly certificate?: { readonly certPath: string; readonly keyPath: string };
  readonly say: (text: string) => void;
}

const LINK_PORT = 8443;
const ROUTE_PORT = 6222;

/**
 * Writes the files of a cluster: one for each node, and one with the users for all of them, with new passwords, since the
 * hub keeps only hashes of a kind that nats-server does not know. Only its owner may read them. On one machine (every host
 * the same) the nodes get ports of their own.
 */
export async function writeNatsConfiguration({ users, hosts, folder, certificate, say }: NatsCommand): Promise<void> {
  if (hosts.length === 0 || hosts.some((host) => !/^[A-Za-z0-9.-]{1,253}$/.test(host)))
    throw new Error('Say the hosts of the nodes: --nodes a.example,b.example,c.example');
  await mkdir(folder, { recursive: true });
  const isOneMachine = new Set(hosts).size < hosts.length;
  const portsOf = (index: number): { readonly link: number; readonly route: number } => ({
    link: LINK_PORT + (isOneMachine ? index : 0),
    route: ROUTE_PORT + (isOneMachine ? index : 0),
  });
  const between = newPassword();
  const own = (path: string, text: string): Promise<void> => writeFile(path, text, { mode: 0o600 });
  const named = users.filter(({ role }) => role !== 'none').map((user) => ({ ...user, password: newPassword() }));
  await own(join(folder, 'users.conf'), natsUsers(named));
  for (const index of hosts.keys()) {
    const name = `node-${index + 1}`;
    const { link, route } = portsOf(index);
    const routes = hosts.flatMap((host, other) => (other === index ? [] : [`${host}:${portsOf(other).route}`]));
    const text = natsNode(
      { name, linkPort: link, routePort: route, routes, storeFolder: resolve(folder, `${name}-store`), ...(certificate === undefined ? {} : { certificate }) },
      between,
    );
    await own(join(folder, `${name}.conf`), text);
  }
  say(`Written to ${folder}: users.conf and ${hosts.length} nodes. Passwords, shown only now:`);
  for (const { name, role, password } of named) say(`  ${name.padEnd(14)} ${role.padEnd(7)} ${password}`);
  say('On each machine, with its own file and users.conf beside it:');
  for (const [index, host] of hosts.entries()) say(`  ${host}: nats-server -c ${join(folder, `node-${index + 1}.conf`)}`);
  const scheme = certificate === undefined ? 'ws' : 'wss';
  say(`The link's address on every device: ${hosts.map((host, index) => `${scheme}://${host}:${portsOf(index).link}/mqtt`).join(' ')}`);
}
