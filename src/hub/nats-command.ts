import { X509Certificate } from 'node:crypto';
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { isIP } from 'node:net';
import { join } from 'node:path';
import { type NatsCertificate, natsNode, natsUsers } from './nats-files.ts';
import { newPassword } from './password-hash.ts';
import type { HubUser } from './users.ts';

export interface NatsCommand {
  readonly users: readonly HubUser[];
  /** Hosts of the nodes, as devices and the other nodes reach them. */
  readonly hosts: readonly string[];
  /** Where the files are written. */
  readonly folder: string;
  readonly certificate?: NatsCertificate;
  readonly say: (text: string) => void;
}

const LINK_PORT = 8443;
const ROUTE_PORT = 6222;

/**
 * Writes the files of a cluster: one for each node, and one with the users for all of them, with new passwords, since the
 * hub keeps only hashes of a kind that nats-server does not know. Only its owner may read them. On one machine (every host
 * the same) the nodes get ports of their own. Paths stay as they were given, so that relative ones are good on every machine.
 */
export async function writeNatsConfiguration({ users, hosts, folder, certificate, say }: NatsCommand): Promise<void> {
  if (hosts.length === 0 || hosts.some((host) => !/^[A-Za-z0-9.-]{1,253}$/.test(host)))
    throw new Error('Say the hosts of the nodes: --nodes a.example,b.example,c.example');
  if (certificate !== undefined) await checkCertificate(certificate, hosts);
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
      { name, linkPort: link, routePort: route, routes, storeFolder: join(folder, `${name}-store`), ...(certificate === undefined ? {} : { certificate }) },
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

/** The purpose "client" (RFC 5280, section 4.2.1.12, id-kp-clientAuth). */
const CLIENT_PURPOSE = '1.3.6.1.5.5.7.3.2';

/** Throws an Error that says what to mend: nodes that do not believe each other's certificate never meet. */
async function checkCertificate({ certPath }: NatsCertificate, hosts: readonly string[]): Promise<void> {
  const certificate = new X509Certificate(await readFile(certPath));
  const unnamed = hosts.filter((host) => (isIP(host) === 0 ? certificate.checkHost(host) : certificate.checkIP(host)) === undefined);
  if (unnamed.length > 0) throw new Error(`${certPath} does not name ${[...new Set(unnamed)].join(', ')}: make one that names every node.`);
  // A certificate that names no purpose is good for all.
  const purposes: readonly string[] | undefined = certificate.keyUsage;
  if (purposes !== undefined && !purposes.includes(CLIENT_PURPOSE))
    throw new Error(`${certPath} is good for servers alone, and nodes are each other's clients: make one with extendedKeyUsage=serverAuth,clientAuth.`);
}
