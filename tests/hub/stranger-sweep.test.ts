import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { createStrangerSweep } from '../../src/hub/stranger-sweep.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

it('sweeps soon after strangers were cut, the last of them too, and not again and again', async () => {
  const sweep = vi.fn();
  const { leftBehind } = createStrangerSweep(sweep);
  // Little is not worth it.
  leftBehind(1000);
  await vi.advanceTimersByTimeAsync(1000);
  expect(sweep).not.toHaveBeenCalled();
  leftBehind(65_536);
  await vi.advanceTimersByTimeAsync(20);
  expect(sweep).toHaveBeenCalledTimes(1);
  // A flood of a second: every 40 ms at most, and once after the last.
  for (let at = 0; at < 1000; at += 5) {
    leftBehind(65_536);
    await vi.advanceTimersByTimeAsync(5);
  }
  const during = sweep.mock.calls.length;
  expect(during).toBeGreaterThan(10);
  expect(during).toBeLessThanOrEqual(27);
  await vi.advanceTimersByTimeAsync(100);
  const after = sweep.mock.calls.length;
  await vi.advanceTimersByTimeAsync(5000);
  expect(sweep).toHaveBeenCalledTimes(after);
});

it('clears memory for good by the engine\u2019s own sweep', () => {
  vi.useRealTimers();
  const { leftBehind } = createStrangerSweep();
  const before = process.memoryUsage().arrayBuffers;
  let left = Array.from({ length: 200 }, () => Buffer.alloc(65_536));
  expect(process.memoryUsage().arrayBuffers - before).toBeGreaterThan(12_000_000);
  left = [];
  leftBehind(200 * 65_536);
  return vi.waitFor(() => expect(process.memoryUsage().arrayBuffers - before + left.length).toBeLessThan(2_000_000), 500);
});
