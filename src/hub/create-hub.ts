import { createServer, type Server } from 'node:http';
import { serveApp } from './serve-app.ts';

export interface HubOptions {
  /** The folder that the build wrote. */
  readonly distDirectory: string;
}

/** An HTTP server of the built app, not yet listening. */
export function createHub({ distDirectory }: HubOptions): Server {
  return createServer(serveApp(distDirectory));
}
