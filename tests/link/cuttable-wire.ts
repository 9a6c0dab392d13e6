import { connect, createServer, type Server, type Socket } from 'node:net';

/** A wire to a broker of this machine that can be cut, or kept open with nothing passing. */
export interface CuttableWire {
  readonly port: number;
  /** Breaks every connection and takes no new one. */
  cut(): void;
  /** Keeps connections open and passes nothing on. */
  stall(): void;
  heal(): void;
  close(): Promise<void>;
}

export async function cuttableWire(toPort: number, toHost = 'localhost'): Promise<CuttableWire> {
  const pairs = new Set<readonly [Socket, Socket]>();
  let state: 'whole' | 'cut' | 'stalled' = 'whole';
  const server: Server = createServer((near) => {
    if (state === 'cut') {
      near.destroy();
      return;
    }
    const far = connect(toPort, toHost);
    const pair = [near, far] as const;
    pairs.add(pair);
    for (const socket of pair) {
      socket.on('error', () => {});
      socket.on('close', () => {
        pairs.delete(pair);
        near.destroy();
        far.destroy();
      });
      if (state === 'stalled') socket.pause();
    }
    near.on('data', (data) => void far.write(data));
    far.on('data', (data) => void near.write(data));
  });
  await new Promise<void>((resolve) => void server.listen(0, resolve));
  const cut = (): void => {
    state = 'cut';
    for (const [near, far] of pairs) {
      near.destroy();
      far.destroy();
    }
  };
  const address = server.address();
  return {
    port: typeof address === 'object' && address !== null ? address.port : 0,
    cut,
    stall() {
      state = 'stalled';
      for (const pair of pairs) for (const socket of pair) socket.pause();
    },
    heal() {
      state = 'whole';
      for (const pair of pairs) for (const socket of pair) socket.resume();
    },
    async close() {
      cut();
      await new Promise<void>((resolve) => void server.close(() => resolve()));
    },
  };
}
