import type { ChildProcess } from 'node:child_process';
import { connect, createServer } from 'node:net';

/** A port that nobody listens on now. */
export function freePort(): Promise<number> {
  return new Promise((resolve) => {
    const server = createServer();
    server.listen(0, () => {
      const address = server.address();
      server.close(() => resolve(typeof address === 'object' && address !== null ? address.port : 0));
    });
  });
}

const WAIT_MILLISECONDS = 100;

/** Waits so many seconds until a broker listens; throws an Error with its name and what it said when it ends first or does not. */
export async function listening(port: number, broker: ChildProcess, name: string, seconds: number, said: () => string = () => ''): Promise<void> {
  const words = (): string => (said() === '' ? '' : `: ${said()}`);
  for (let attempt = 0; attempt < (seconds * 1000) / WAIT_MILLISECONDS; attempt += 1) {
    if (broker.exitCode !== null) throw new Error(`${name} ended with ${broker.exitCode}${words()}`);
    const open = await new Promise<boolean>((resolve) => {
      const socket = connect(port, '127.0.0.1');
      socket.on('connect', () => {
        socket.destroy();
        resolve(true);
      });
      socket.on('error', () => resolve(false));
    });
    if (open) return;
    await new Promise((resolve) => setTimeout(resolve, WAIT_MILLISECONDS));
  }
  throw new Error(`${name} does not listen${words()}`);
}
