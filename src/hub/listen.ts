import type { Server } from 'node:http';

const PORTS_TRIED = 100;

function listenOnce(server: Server, port: number, host: string | undefined): Promise<boolean> {
  return new Promise((resolve, reject) => {
    const onError = (error: NodeJS.ErrnoException): void => {
      server.off('listening', onListening);
      if (error.code === 'EADDRINUSE' || error.code === 'EACCES') resolve(false);
      else reject(error);
    };
    const onListening = (): void => {
      server.off('error', onError);
      resolve(true);
    };
    server.once('error', onError).once('listening', onListening).listen(port, host);
  });
}

/**
 * Listens on the first free port from `firstPort` upwards, 0 for any; returns the port.
 * Throws an Error when a hundred ports in a row are taken.
 *
 * @param host the one address to listen on; all of the machine's when left out
 */
export async function listenFrom(server: Server, firstPort: number, host?: string): Promise<number> {
  if (!Number.isInteger(firstPort) || firstPort < 0 || firstPort > 65_535) throw new RangeError(`firstPort is ${firstPort}`);
  for (let port = firstPort; port < Math.min(firstPort + PORTS_TRIED, 65_536); port += 1) {
    if (await listenOnce(server, port, host)) {
      const address = server.address();
      return typeof address === 'object' && address !== null ? address.port : port;
    }
  }
  throw new Error(`No free port from ${firstPort} to ${firstPort + PORTS_TRIED - 1}.`);
}
