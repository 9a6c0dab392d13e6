import { spawnSync } from 'node:child_process';
import { X509Certificate } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { chmod, writeFile } from 'node:fs/promises';
import { networkInterfaces } from 'node:os';
import { createSecureContext } from 'node:tls';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { isLinkId } from '../core/wire/link-id.ts';
import { createHub, LINK_PATH, RECEIVER_PATH } from './create-hub.ts';
import { createLinkBroker } from './link-broker.ts';
import { listenFrom } from './listen.ts';
import { mosquittoAccess } from './mosquitto-files.ts';
import { writeNatsConfiguration } from './nats-command.ts';
import { hashFromPassword, newPassword } from './password-hash.ts';
import { type HubUser, readUsersFile, textFromUsers, usersFromText } from './users.ts';

const HELP = `The hub for a field laptop: serves the built app, and the link between ships and ground.

  serve                      the default
  add-user NAME ship|ground  gives NAME a new password, shown once; a user a device
  mosquitto-access           prints an access file with the same rules for Mosquitto
  nats-configuration         writes the files of a nats-server cluster with the same rules

  --users FILE         who may connect (default quillwind-users.json; made with a first set of users if missing)
  --port N             first port to try (default 8080, or 8443 with a certificate)
  --certificate FILE   PEM; with --key FILE the hub speaks only TLS, which every device but this laptop needs
  --key FILE
  --origin URL         a page of this origin may use the link too; may be repeated
  --receiver URL       passes a receiver's JSON on at ${RECEIVER_PATH}
  --nodes A,B,C        with nats-configuration: the hosts of the nodes (default three on this machine)
  --authority FILE     with nats-configuration and a certificate: who signed it, by which the nodes know each other
  --folder FOLDER      with nats-configuration: where its files go (default quillwind-nats)
  --jobs A,B           with add-user: only these jobs, by id (default all)
`;

const FIRST_USERS: readonly (readonly [string, HubUser['role']])[] = [
  ['lead', 'ship'],
  ['two', 'ship'],
  ['three', 'ship'],
  ['observer-1', 'ground'],
  ['observer-2', 'ground'],
];

const say = (text: string): void => void process.stdout.write(`${text}\n`);

const { values, positionals } = readArguments();

function readArguments() {
  try {
    return parseArgs({
      allowPositionals: true,
      options: {
        users: { type: 'string', default: 'quillwind-users.json' },
        port: { type: 'string' },
        certificate: { type: 'string' },
        key: { type: 'string' },
        authority: { type: 'string' },
        origin: { type: 'string', multiple: true, default: [] },
        receiver: { type: 'string' },
        jobs: { type: 'string', default: '*' },
        nodes: { type: 'string', default: 'localhost,localhost,localhost' },
        folder: { type: 'string', default: 'quillwind-nats' },
        help: { type: 'boolean', default: false },
      },
    });
  } catch (error) {
    process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n\n${HELP}`);
    process.exit(1);
  }
}

async function madeUser(name: string, role: HubUser['role'], jobs: readonly string[]): Promise<HubUser> {
  const password = newPassword();
  say(`  ${name.padEnd(14)} ${role.padEnd(7)} ${password}`);
  return { name, role, jobs, password: await hashFromPassword(password) };
}

/** Only whoever runs the hub may read the file. */
async function writeUsers(path: string, users: readonly HubUser[]): Promise<void> {
  const text = textFromUsers(users);
  const reading = usersFromText(text);
  if (!reading.ok) throw new Error(`${path} is left as it was: ${reading.reason}`);
  await writeFile(path, text, { mode: 0o600 });
  // The mode above is for a new file; one that was there keeps its own otherwise.
  await chmod(path, 0o600);
}

async function addUser([name = '', role = '']: readonly string[]): Promise<void> {
  if (!isLinkId(name) || (role !== 'ship' && role !== 'ground'))
    throw new Error('Say whom: add-user NAME ship|ground. Names are letters, digits, - and _, 32 at most.');
  const users = existsSync(values.users) ? await readUsersFile(values.users) : [];
  const jobs = values.jobs.split(',');
  const wrong = jobs.find((job) => job !== '*' && !isLinkId(job));
  if (wrong !== undefined) throw new Error(`--jobs ${values.jobs}: "${wrong}" is no job’s id: letters, digits, - and _, 32 at most. Nothing was written.`);
  const user = await madeUser(name, role, jobs);
  await writeUsers(values.users, [...users.filter((each) => each.name !== name), user]);
  say(`Written to ${values.users}. The password is nowhere else: note it now. A running hub reads the file at its next start.`);
}

async function serve(): Promise<void> {
  const distDirectory = fileURLToPath(new URL('../../dist', import.meta.url));
  const canBuild = existsSync(fileURLToPath(new URL('../../node_modules/vite', import.meta.url)));
  // Without the packages that build it nothing is fetched in their place; the link needs no app from here.
  if (!existsSync(distDirectory) && !canBuild)
    say('No built app is here and none can be built without the development packages: only the link is served. Copy dist from where it was built.');
  else if (!existsSync(distDirectory)) {
    say('Building the app, about ten seconds.');
    const { status } = spawnSync('npx', ['vite', 'build', '--logLevel', 'warn'], { cwd: fileURLToPath(new URL('../..', import.meta.url)), stdio: 'inherit' });
    if (status !== 0) throw new Error('The app could not be built; see above.');
  }
  if (!existsSync(values.users)) {
    say(`${values.users} is missing. Its first users, with passwords that are shown only now:`);
    await writeUsers(values.users, await Promise.all(FIRST_USERS.map(([name, role]) => madeUser(name, role, ['*']))));
  }
  const users = await readUsersFile(values.users);
  const certificate = readCertificate();
  const broker = await createLinkBroker({ users, onRefused: (user, what) => say(`refused ${user === '' ? 'somebody' : user}: ${what}`) });
  const server = createHub({
    distDirectory,
    broker,
    allowedOrigins: values.origin,
    ...(certificate === undefined ? {} : { certificate }),
    ...(values.receiver === undefined ? {} : { receiverAddress: values.receiver }),
  });
  // What is not secure is for this machine alone, and not even offered to others.
  const port = await listenFrom(server, firstPort(certificate === undefined ? 8080 : 8443), certificate === undefined ? '127.0.0.1' : undefined);
  const scheme = certificate === undefined ? 'http' : 'https';
  const hosts = certificate === undefined ? ['localhost'] : ['localhost', ...ownAddresses()];
  say(`\nQuillwind's hub, ${users.length} users of ${values.users}`);
  for (const host of hosts) say(`  ${scheme}://${host}:${port}/   link ${scheme === 'https' ? 'wss' : 'ws'}://${host}:${port}${LINK_PATH}`);
  if (certificate === undefined)
    say('  Without a certificate it answers this machine alone; for tablets and telephones begin it with --certificate and --key.');
  say('  Ctrl+C stops it; devices go on without it.');
  const stop = (): void => {
    void broker.close().then(() => {
      server.closeAllConnections();
      server.close(() => process.exit(0));
    });
  };
  process.once('SIGINT', stop).once('SIGTERM', stop);
}

/** The certificate and its key, tried together; undefined when none is asked for. Throws an Error that says what to mend. */
function readCertificate(): { readonly cert: Buffer; readonly key: Buffer } | undefined {
  if (values.certificate === undefined && values.key === undefined) return undefined;
  if (values.certificate === undefined || values.key === undefined) throw new Error('--certificate and --key belong together.');
  const given = { cert: readFileSync(values.certificate), key: readFileSync(values.key) };
  let validTo: number;
  try {
    createSecureContext(given);
    validTo = Date.parse(new X509Certificate(given.cert).validTo);
  } catch (error) {
    throw new Error(
      `${values.certificate} and ${values.key} are not a certificate and its own key, both in PEM: ${error instanceof Error ? error.message : String(error)}`,
    );
  }
  if (validTo < Date.now()) say(`${values.certificate} ran out on ${new Date(validTo).toISOString().slice(0, 10)}: no device will trust it. Make a new one.`);
  return given;
}

function firstPort(usual: number): number {
  const port = Number(values.port ?? usual);
  if (!Number.isInteger(port) || port < 0 || port > 65_535) throw new Error(`--port ${values.port} is no port: 1 to 65535, or 0 for any.`);
  return port;
}

function ownAddresses(): string[] {
  return Object.values(networkInterfaces()).flatMap((addresses) =>
    (addresses ?? []).filter(({ family, internal }) => family === 'IPv4' && !internal).map(({ address }) => address),
  );
}

async function natsConfiguration(): Promise<void> {
  const { certificate, key, authority } = values;
  const isSecure = certificate !== undefined && key !== undefined && authority !== undefined;
  if (!isSecure && (certificate ?? key ?? authority) !== undefined) throw new Error('--certificate, --key and --authority belong together.');
  await writeNatsConfiguration({
    users: await readUsersFile(values.users),
    hosts: values.nodes.split(','),
    folder: values.folder,
    ...(isSecure ? { certificate: { certPath: certificate, keyPath: key, authorityPath: authority } } : {}),
    say,
  });
}

async function main(): Promise<void> {
  const [command = 'serve', ...rest] = positionals;
  if (values.help) say(HELP);
  else if (command === 'serve') await serve();
  else if (command === 'add-user') await addUser(rest);
  else if (command === 'mosquitto-access') process.stdout.write(mosquittoAccess(await readUsersFile(values.users)));
  else if (command === 'nats-configuration') await natsConfiguration();
  else throw new Error(`${command} is no command. ${HELP}`);
}

try {
  await main();
} catch (error) {
  process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
  // A broker that was made already would keep the process.
  process.exit(1);
}
