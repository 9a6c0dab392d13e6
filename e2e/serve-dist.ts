import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { createHub } from '../src/hub/create-hub.ts';
import { listenFrom } from '../src/hub/listen.ts';

/** The folder under test: QUILLWIND_DIST, or dist. */
export function distDirectory(): string {
  return process.env['QUILLWIND_DIST'] || fileURLToPath(new URL('../dist', import.meta.url));
}

/** Serves the built app for the whole run, on any free port; the returned function ends it. */
export default async function serveDist(): Promise<() => Promise<void>> {
  const directory = distDirectory();
  if (!existsSync(directory)) throw new Error(`Nothing is built in ${directory}: npm run build`);
  const hub = createHub({ distDirectory: directory });
  process.env['QUILLWIND_URL'] = `http://localhost:${await listenFrom(hub, 0)}/`;
  return () =>
    new Promise((resolve) => {
      hub.closeAllConnections();
      hub.close(() => resolve());
    });
}
