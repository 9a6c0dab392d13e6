import { Duplex } from 'node:stream';
import type { WebSocket } from 'ws';
import { createPacketGate } from './packet-gate.ts';

/** A socket as the broker reads and writes it, and how much of what was written has not left yet. */
export interface SocketStream {
  readonly stream: Duplex;
  readonly unsentBytes: () => number;
  /** Lets through what comes after the first packet; until then it is kept apart, and too much of it ends the connection. */
  readonly admit: () => void;
}

/** The largest payload with its topic and the packet's head; and CONNECT with its will, which nobody has vouched for. */
const PACKET_LIMITS = { packetBytes: 8448, firstBytes: 1024 };
/** Of one that has not shown who it is: its CONNECT in frames, and what it may send behind without waiting for an answer. */
const STRANGER_BYTES = 2 * PACKET_LIMITS.firstBytes + 128;

/** A client that takes nothing for so long is cut; it asks for what it missed when it is back. */
const UNSENT_LIMIT_BYTES = 1_000_000;

/**
 * A WebSocket as a stream. Writing never waits: one client that reads slowly would hold up all others, so it is cut
 * instead. Everything written within one turn leaves as one message. Frames of text end it: MQTT is binary. No packet is
 * gathered that says it will be too long, and from a client that has not shown who it is nothing but its CONNECT.
 *
 * @param wire what the socket's bytes come from
 * @param onSaid the first packet is whole
 */
export function streamFromSocket(
  socket: WebSocket,
  wire: Pick<Duplex, 'on' | 'off'>,
  onSaid: () => void,
  onFault: (fault: string, bytes: number) => void,
): SocketStream {
  const gate = createPacketGate(PACKET_LIMITS);
  let admitted = false;
  let held: Buffer[] = [];
  let isHolding = false;
  let strangerBytes = 0;
  const fail = (fault: string): void => {
    wire.off('data', onBytes);
    held = [];
    onFault(fault, strangerBytes);
    socket.terminate();
  };
  const onBytes = (bytes: Buffer): void => {
    strangerBytes += bytes.length;
    if (strangerBytes > STRANGER_BYTES) fail('too much before a password');
  };
  // What is gathered to a message is counted before it is one.
  wire.on('data', onBytes);
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
    if (!isBinary || !Buffer.isBuffer(data)) return socket.terminate();
    const verdict = gate.take(data);
    if (verdict.fault !== null) return fail(verdict.fault);
    if (isHolding) {
      held.push(data);
      return;
    }
    const { firstEndsAt } = verdict;
    if (firstEndsAt !== null && !admitted) {
      // A socket that is paused would still read 64 KB more and keep them: its bytes go on being counted instead.
      isHolding = true;
      onSaid();
      if (firstEndsAt < data.length) held.push(Buffer.from(data.subarray(firstEndsAt)));
    }
    if (!stream.push(firstEndsAt === null ? data : data.subarray(0, firstEndsAt))) socket.pause();
  });
  socket.on('close', () => {
    stream.push(null);
    stream.destroy();
  });
  socket.on('error', () => socket.terminate());
  const admit = (): void => {
    admitted = true;
    wire.off('data', onBytes);
    isHolding = false;
    for (const data of held) stream.push(data);
    held = [];
    socket.resume();
  };
  return { stream, unsentBytes: () => socket.bufferedAmount, admit };
}
