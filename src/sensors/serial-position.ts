import { createNmeaReader, type NmeaStatus } from '../core/tracks/nmea-fixes.ts';
import type { LossReason, PositionSource } from './position-source.ts';

/** A port of Web Serial (WICG), as much of it as is used; a Bluetooth receiver with a serial profile is one too. */
export interface SerialReceiver {
  readonly readable: ReadableStream<Uint8Array<ArrayBuffer>> | null;
  open(options: { readonly baudRate: number }): Promise<void>;
  close(): Promise<void>;
}

/** Silence for so long is a loss. */
const SILENT_MILLISECONDS = 3000;
const AGAIN_MILLISECONDS = 1000;
/**
 * Positions of a receiver on a serial port, by its NMEA sentences. A port that is pulled out, or falls silent, is told as a
 * loss and opened again each second.
 *
 * @param onStatus told with every fix: who speaks, how often, how much was garbage
 */
export function serialPosition(port: SerialReceiver, baudRate: number, onStatus: (status: NmeaStatus) => void = () => {}): PositionSource {
  return {
    start(listener) {
      let ended = false;
      let lost: LossReason | null = null;
      let heardMilliseconds = performance.now();
      let cancel: () => void = () => {};
      const reader = createNmeaReader();
      const lose = (reason: LossReason): void => {
        if (lost === reason || ended) return;
        lost = reason;
        listener.fixesLost(reason);
      };
      const hear = (text: string): void => {
        for (const fix of reader.feed(text, Date.now())) {
          if (ended) return;
          heardMilliseconds = performance.now();
          lost = null;
          listener.fixReceived(fix);
        }
        onStatus(reader.status());
      };
      const run = async (): Promise<void> => {
        while (!ended) {
          try {
            await port.open({ baudRate });
            await listen(port, hear, (stop) => (cancel = stop));
          } catch {
            // Pulled out, or taken by another program: tried again below.
          }
          await port.close().catch(() => {});
          lose('unavailable');
          await new Promise((resolve) => setTimeout(resolve, AGAIN_MILLISECONDS));
        }
      };
      const timer = setInterval(() => {
        if (performance.now() - heardMilliseconds >= SILENT_MILLISECONDS) lose('unavailable');
      }, AGAIN_MILLISECONDS);
      void run();
      return () => {
        ended = true;
        clearInterval(timer);
        cancel();
      };
    },
  };
}

async function listen(port: SerialReceiver, hear: (text: string) => void, onCancel: (stop: () => void) => void): Promise<void> {
  const reader = port.readable?.getReader();
  if (reader === undefined) return;
  onCancel(() => void reader.cancel().catch(() => {}));
  // Bytes beyond ASCII are noise: they fail the checksum of the sentence they hit, and no other.
  const decoder = new TextDecoder('latin1');
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return;
      hear(decoder.decode(value, { stream: true }));
    }
  } finally {
    reader.releaseLock();
  }
}
