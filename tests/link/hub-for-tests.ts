import type { Server } from 'node:http';
import { mkdtemp } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createHub, LINK_PATH } from '../../src/hub/create-hub.ts';
import { createLinkBroker, type LinkBroker } from '../../src/hub/link-broker.ts';
import { listenFrom } from '../../src/hub/listen.ts';
import { hashFromPassword } from '../../src/hub/password-hash.ts';
import type { HubUser } from '../../src/hub/users.ts';

/** The users of the tests, each with its name as password; hashed cheaply. */
export async function testUsers(): Promise<readonly HubUser[]> {
  const hashed = async (name: string, role: HubUser['role'], jobs: readonly string[]): Promise<HubUser> => ({
    name,
    role,
    jobs,
    password: await hashFromPassword(name, { N: 16, r: 1, p: 1 }),
  });
  return Promise.all([
    hashed('lead', 'ship', ['*']),
    hashed('two', 'ship', ['*']),
    hashed('three', 'ship', ['*']),
    hashed('anna', 'ground', ['*']),
    hashed('ben', 'ground', ['*']),
    hashed('elsewhere', 'ground', ['another-job']),
    hashed('nobody', 'none', ['*']),
  ]);
}

export interface RunningHub {
  readonly address: string;
  readonly port: number;
  readonly broker: LinkBroker;
  readonly server: Server;
  readonly refused: (readonly [string, string])[];
  close(): Promise<void>;
}

/** A hub of its own, on any free port. */
export async function startTestHub(users?: readonly HubUser[]): Promise<RunningHub> {
  const refused: (readonly [string, string])[] = [];
  const broker = await createLinkBroker({ users: users ?? (await testUsers()), onRefused: (user, what) => refused.push([user, what]) });
  const server = createHub({ distDirectory: await mkdtemp(join(tmpdir(), 'quillwind-')), broker, allowedOrigins: ['https://field.example'] });
  const port = await listenFrom(server, 0);
  return {
    address: `ws://localhost:${port}${LINK_PATH}`,
    port,
    broker,
    server,
    refused,
    async close() {
      await broker.close();
      server.closeAllConnections();
      await new Promise((resolve) => server.close(resolve));
    },
  };
}
