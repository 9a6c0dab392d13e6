import { createServer, type IncomingMessage } from 'node:http';
import { WebSocket, WebSocketServer } from 'ws';

/** A bad network between pages and a broker: it can be cut, stalled, and can repeat what it carried. */
export interface GroundWire {
  readonly address: string;
  /** Breaks every connection and takes no new one. */
  cut(): void;
  /** Keeps connections open and carries nothing. */
  stall(): void;
  heal(): void;
  /** From now on every message of the broker arrives twice. */
  doubleEverything(): void;
  /** Sends again, to every open connection, what the broker sent it so far. */
  replay(): void;
  /** How long nothing was carried, by the real clock. */
  idleMilliseconds(): number;
  close(): Promise<void>;
}

/** MQTT's first byte of a PUBLISH is 0x30 to 0x3d; other packets are not for a network to repeat. */
const isPublish = (data: Buffer): boolean => ((data[0] ?? 0) & 0xf0) === 0x30;
const REPLAYED_LIMIT = 400;

/** A wire to a broker's WebSocket address. */
export async function startGroundWire(toAddress: string): Promise<GroundWire> {
  let state: 'whole' | 'cut' | 'stalled' = 'whole';
  let doubling = false;
  let carriedAt = 0;
  const pairs = new Set<{ readonly near: WebSocket; readonly far: WebSocket; readonly carried: Buffer[] }>();
  const server = createServer((_request, response) => response.writeHead(404).end());
  const sockets = new WebSocketServer({ noServer: true, handleProtocols: () => 'mqtt' });
  server.on('upgrade', (request: IncomingMessage, socket, head) => {
    if (state === 'cut') {
      socket.destroy();
      return;
    }
    sockets.handleUpgrade(request, socket, head, (near) => {
      const far = new WebSocket(toAddress, 'mqtt');
      const carried: Buffer[] = [];
      const pair = { near, far, carried };
      pairs.add(pair);
      const early: Buffer[] = [];
      near.on('message', (data: Buffer) => {
        if (state === 'stalled') return;
        carriedAt = performance.now();
        if (far.readyState === WebSocket.OPEN) far.send(data);
        else early.push(data);
      });
      far.on('open', () => {
        for (const data of early.splice(0)) far.send(data);
      });
      far.on('message', (data: Buffer) => {
        if (state === 'stalled' || near.readyState !== WebSocket.OPEN) return;
        carriedAt = performance.now();
        near.send(data);
        if (!isPublish(data)) return;
        if (doubling) near.send(data);
        carried.push(data);
        if (carried.length > REPLAYED_LIMIT) carried.shift();
      });
      const end = (): void => {
        pairs.delete(pair);
        near.terminate();
        far.terminate();
      };
      for (const side of [near, far]) side.on('close', end).on('error', end);
    });
  });
  await new Promise<void>((resolve) => void server.listen(0, resolve));
  const address = server.address();
  const cut = (): void => {
    state = 'cut';
    for (const { near, far } of pairs) {
      near.terminate();
      far.terminate();
    }
  };
  return {
    address: `ws://localhost:${typeof address === 'object' && address !== null ? address.port : 0}/link`,
    cut,
    stall: () => (state = 'stalled'),
    heal: () => (state = 'whole'),
    doubleEverything: () => (doubling = true),
    replay() {
      for (const { near, carried } of pairs) for (const data of carried) if (near.readyState === WebSocket.OPEN) near.send(data);
    },
    idleMilliseconds: () => performance.now() - carriedAt,
    async close() {
      cut();
      server.closeAllConnections();
      await new Promise<void>((resolve) => void server.close(() => resolve()));
    },
  };
}
