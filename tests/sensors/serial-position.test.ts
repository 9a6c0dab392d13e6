import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type { Fix } from '../../src/core/tracking/fix.ts';
import { type SerialReceiver, serialPosition } from '../../src/sensors/serial-position.ts';

const RMC = '$GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W*6A\r\n';
const NEXT = '$GPRMC,123520,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W*60\r\n';

/** A port whose bytes a test pushes, and which it can pull out. */
function fakePort(): SerialReceiver & { push(text: string): void; pull(): void; opened: number } {
  let controller: ReadableStreamDefaultController<Uint8Array<ArrayBuffer>> | null = null;
  const port = {
    opened: 0,
    readable: null as ReadableStream<Uint8Array<ArrayBuffer>> | null,
    async open() {
      port.opened += 1;
      port.readable = new ReadableStream({ start: (each) => void (controller = each) });
    },
    async close() {
      port.readable = null;
    },
    push: (text: string) => controller?.enqueue(new TextEncoder().encode(text)),
    pull: () => controller?.error(new DOMException('gone', 'NetworkError')),
  };
  return port;
}

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

it('tells fixes as they come, silence and a pulled plug as losses, and comes back by itself', async () => {
  const port = fakePort();
  const fixes: Fix[] = [];
  const losses: string[] = [];
  const statuses: string[] = [];
  const end = serialPosition(port, 9600, ({ talker }) => void statuses.push(talker)).start({
    fixReceived: (fix) => void fixes.push(fix),
    fixesLost: (reason) => void losses.push(reason),
  });
  await vi.advanceTimersByTimeAsync(10);
  port.push(RMC + NEXT);
  await vi.advanceTimersByTimeAsync(10);
  expect(fixes).toHaveLength(1);
  expect(statuses).toContain('GP');
  await vi.advanceTimersByTimeAsync(4000);
  expect(losses).toEqual(['unavailable']);
  port.pull();
  await vi.advanceTimersByTimeAsync(1500);
  expect(port.opened).toBe(2);
  end();
  // What still comes is heard by nobody: the port was given up.
  expect(() => port.push(RMC)).toThrow(/closed/);
  await vi.advanceTimersByTimeAsync(50);
  expect(fixes).toHaveLength(1);
});
