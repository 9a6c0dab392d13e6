import { createHash } from 'node:crypto';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import type { IncomingMessage, Server, ServerResponse } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createHub } from '../src/hub/create-hub.ts';
import { listenFrom } from '../src/hub/listen.ts';
import { distDirectory } from './serve-dist.ts';

/** The built app on a server of its own, which a test may change, stop and let hang. */
export interface DistCopy {
  readonly address: string;
  /** As a newer version would be published: the page says so in its title. */
  publishNext(): void;
  /** From now on this file's transfer is broken off; null for none. */
  breakOff(name: string | null): void;
  /** From now on each answer comes so much later, as over a slow network. */
  delay(milliseconds: number): void;
  /** The most fetches, as a worker makes them, that waited for an answer at the same time; scripts and pictures of a page are not counted. */
  mostAtOnce(): number;
  /** From now on requests are taken and never answered. */
  hang(): void;
  stop(): Promise<void>;
}

/** Serves a copy of what was built. */
export async function serveCopy(): Promise<DistCopy> {
  const directory = mkdtempSync(join(tmpdir(), 'quillwind-dist-'));
  cpSync(distDirectory(), directory, { recursive: true });
  const hub: Server = createHub({ distDirectory: directory });
  const answer = hub.listeners('request')[0] as (...args: unknown[]) => void;
  let hanging = false;
  let broken: string | null = null;
  let lateMilliseconds = 0;
  let waiting = 0;
  let most = 0;
  hub.removeAllListeners('request');
  hub.on('request', (request, response: ServerResponse) => {
    // Nothing may come out of the browser's own cache in place of the service worker's.
    const setHeader = response.setHeader.bind(response);
    response.setHeader = (name, value) => setHeader(name, name === 'Cache-Control' ? 'no-store' : value);
    if (broken !== null && (request as { url?: string }).url?.startsWith(`/${broken}`) === true) response.destroy();
    else if (!hanging && lateMilliseconds === 0) answer(request, response);
    else if (!hanging) {
      const counted = (request as IncomingMessage).headers['sec-fetch-dest'] === 'empty' ? 1 : 0;
      most = Math.max(most, (waiting += counted));
      setTimeout(() => {
        waiting -= counted;
        answer(request, response);
      }, lateMilliseconds);
    }
  });
  const port = await listenFrom(hub, 0);
  const edit = (name: string, change: (text: string) => string): void => {
    const path = join(directory, name);
    const before = readFileSync(path, 'utf8');
    const after = change(before);
    if (after === before) throw new Error(`${name} has nothing to change`);
    writeFileSync(path, after);
  };
  return {
    address: `http://localhost:${port}/`,
    publishNext() {
      edit('index.html', (text) => text.replace('<title>Quillwind</title>', '<title>Quillwind, next</title>'));
      const integrity = `sha256-${createHash('sha256')
        .update(readFileSync(join(directory, 'index.html')))
        .digest('base64')}`;
      edit('service-worker.js', (text) =>
        text.replace(/\{[^{}]*"url":"index.html"[^{}]*\}/, (entry) =>
          entry.replace(/("revision":")[^"]+/, '$1next').replace(/("integrity":")[^"]+/, `$1${integrity}`),
        ),
      );
    },
    breakOff(name) {
      broken = name;
    },
    delay(milliseconds) {
      lateMilliseconds = milliseconds;
    },
    mostAtOnce: () => most,
    hang() {
      hanging = true;
    },
    stop: () =>
      new Promise((resolve) => {
        hub.closeAllConnections();
        hub.close(() => {
          rmSync(directory, { recursive: true, force: true });
          resolve();
        });
      }),
  };
}

/** Every file that the build wrote, as a path from the root: `/index.html`; packed copies are no files of their own. */
export function builtFiles(): string[] {
  return readdirSync(distDirectory(), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && !entry.name.endsWith('.gz'))
    .map((entry) => join(entry.parentPath, entry.name).slice(distDirectory().length))
    .sort();
}
