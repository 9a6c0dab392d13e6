import { Duplex } from 'node:stream';
import type { WebSocket } from 'ws';

/** A socket as the broker reads and writes it, and how much of what was written has not left yet. */
export interface SocketStream {
  readonly stream: Duplex;
  readonly unsentBytes: () => number;
}

/** A client that takes nothing for so long is cut; it asks for what it missed when it is back. */
const UNSENT_LIMIT_BYTES = 1_000_000;

/**
 * A WebSocket as a stream. Writing never waits: one client that reads slowly would hold up all others, so it is cut
 * instead. Everything written within one turn leaves as one message. Frames of text end it: MQTT is binary.
 */
export function streamFromSocket(socket: WebSocket): SocketStream {
  const send = (bytes: Buffer): void => {
    if (socket.bufferedAmount > UNSENT_LIMIT_BYTES) socket.terminate();
    else if (socket.readyState === socket.OPEN) socket.send(bytes, { binary: true });
  };
  const stream = new Duplex({
    read: () => socket.resume(),
    write(chunk: Buffer, _encoding, done) {
      send(chunk);
      done();
    },
    writev(chunks, done) {
      send(Buffer.concat(chunks.map(({ chunk }) => chunk as Buffer)));
      done();
    },
    destroy(_error, done) {
      socket.terminate();
      done(null);
    },
    final(done) {
      socket.close();
      done();
    },
  });
  socket.on('message', (data, isBinary) => {
    if (!isBinary || !Buffer.isBuffer(data)) socket.terminate();
    else if (!stream.push(data)) socket.pause();
  });
  socket.on('close', () => {
    stream.push(null);
    stream.destroy();
  });
  socket.on('error', () => socket.terminate());
  return { stream, unsentBytes: () => socket.bufferedAmount };
}
