// Builds the app and serves it: `npm start`, or `npm start -- --no-build` to serve what was built before.
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import { listenFrom } from '../src/hub/listen.ts';
import { createHub } from '../src/hub/create-hub.ts';

const FIRST_PORT = 8080;
const distDirectory = fileURLToPath(new URL('../dist', import.meta.url));

if (!process.argv.includes('--no-build') || !existsSync(distDirectory)) {
  process.stdout.write('Building the app, about ten seconds.\n');
  await build({ logLevel: 'warn' });
}

const port = await listenFrom(createHub({ distDirectory }), Number(process.env['PORT'] ?? FIRST_PORT));
const address = `http://localhost:${port}/`;
process.stdout.write(`
Quillwind is at ${address}
  The demo job, a lakeside regatta, is stored at the first opening.
  Its rehearsal is ready to fly at ${address}#/write/lake-ondine
  Once loaded, it also opens with this server stopped. Ctrl+C stops it.
`);
