import { tmpdir } from 'node:os';
import { createHub, LINK_PATH } from '../../src/hub/create-hub.ts';
import { createLinkBroker } from '../../src/hub/link-broker.ts';
import { listenFrom } from '../../src/hub/listen.ts';
import { readUsersFile } from '../../src/hub/users.ts';

/** The hub in a process of its own, so that its memory is its own: prints its address and runs until it is ended. */
const broker = await createLinkBroker({ users: await readUsersFile(process.argv[2] ?? '') });
const port = await listenFrom(createHub({ distDirectory: tmpdir(), broker }), 0);
process.stdout.write(`ws://localhost:${port}${LINK_PATH}\n`);
