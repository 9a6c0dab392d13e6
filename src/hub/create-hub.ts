import { X509Certificate } from 'node:crypto';
import { createServer as createPlainServer, type IncomingMessage, type Server } from 'node:http';
import { createServer as createSecureServer } from 'node:https';
import type { Duplex } from 'node:stream';
import { WebSocketServer } from 'ws';
import type { LinkBroker } from './link-broker.ts';
import { createDoor } from './door.ts';
import { isKnownHost, type KnownHosts, mayOrigin } from './origin.ts';
import { proxyReceiver } from './proxy-receiver.ts';
import { serveApp } from './serve-app.ts';

export interface HubOptions {
  /** The folder that the build wrote. */
  readonly distDirectory: string;
  /** The broker behind {@link LINK_PATH}; without one the hub only serves the app. */
  readonly broker?: LinkBroker;
  /** Pages of these origins may use the link, besides the hub's own. */
  readonly allowedOrigins?: readonly string[];
  /** Certificate and key in PEM; with them the hub speaks only TLS. */
  readonly certificate?: { readonly cert: string | Buffer; readonly key: string | Buffer };
  /** A receiver of aircraft positions whose JSON is passed on at {@link RECEIVER_PATH}. */
  readonly receiverAddress?: string;
}

/** Where the broker listens for WebSockets. */
export const LINK_PATH = '/link';

/** Where a receiver's JSON is passed on. */
export const RECEIVER_PATH = '/receiver.json';

/** More than the largest payload with its topic; a longer message ends the connection. */
const MESSAGE_LIMIT_BYTES = 16_384;
const CONNECTIONS_LIMIT = 2000;
const HEAD_MILLISECONDS = 10_000;

/** A server of the built app, with the link's broker when there is one; not yet listening. */
export function createHub({ distDirectory, broker, allowedOrigins = [], certificate, receiverAddress }: HubOptions): Server {
  const own = certificate === undefined ? null : new X509Certificate(certificate.cert);
  const known: KnownHosts = { secure: own !== null, allowedOrigins, isCertified: (name) => own !== null && own.checkHost(name) !== undefined };
  const app = serveApp(distDirectory);
  const receiver = receiverAddress === undefined ? null : proxyReceiver(receiverAddress);
  const listener: typeof app = (request, response) => {
    if (receiver === null || request.url?.split('?')[0] !== RECEIVER_PATH) return app(request, response);
    if (isKnownHost(request.headers.host, known)) return receiver(request, response);
    response.writeHead(421, { 'Content-Type': 'text/plain; charset=utf-8' });
    response.end('This hub is not known under this name\n');
  };
  const server = certificate === undefined ? createPlainServer(listener) : createSecureServer(certificate, listener);
  // A request's head is a few hundred bytes; whoever takes its time with it makes room.
  server.headersTimeout = HEAD_MILLISECONDS;
  server.maxConnections = 2 * CONNECTIONS_LIMIT;
  if (broker !== undefined) acceptSockets(server, broker, known);
  return server;
}

function acceptSockets(server: Server, broker: LinkBroker, known: KnownHosts): void {
  const sockets = new WebSocketServer({
    noServer: true,
    maxPayload: MESSAGE_LIMIT_BYTES,
    perMessageDeflate: false,
    clientTracking: true,
    handleProtocols: (offered) => (offered.has('mqtt') ? 'mqtt' : false),
  });
  const door = createDoor();
  server.on('upgrade', (request: IncomingMessage, socket: Duplex, head: Buffer) => {
    const refuse = (status: string): void => void socket.end(`HTTP/1.1 ${status}\r\nConnection: close\r\nContent-Length: 0\r\n\r\n`);
    socket.on('error', () => socket.destroy());
    if (request.url?.split('?')[0] !== LINK_PATH) return refuse('404 Not Found');
    if (!mayOrigin(request.headers.origin, request.headers.host, known)) return refuse('403 Forbidden');
    if (!/(^|,)\s*mqtt\s*(,|$)/.test(request.headers['sec-websocket-protocol'] ?? '')) return refuse('400 Bad Request');
    if (sockets.clients.size >= CONNECTIONS_LIMIT && !broker.makeRoom()) return refuse('503 Service Unavailable');
    door.enter((done) => {
      if (done === null) return refuse('503 Service Unavailable');
      if (socket.destroyed) return done();
      socket.once('close', done);
      sockets.handleUpgrade(request, socket, head, (accepted) => broker.take(accepted, request, done));
    });
  });
}
