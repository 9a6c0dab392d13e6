import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { keepAwake, type WakeLockState } from '../../src/sensors/wake-lock.ts';
import { FakePage } from './fake-page.ts';

class FakeHandle extends EventTarget {
  released = false;

  release(): Promise<void> {
    this.released = true;
    this.dispatchEvent(new Event('release'));
    return Promise.resolve();
  }
}

function started(answers: readonly ('grant' | 'refuse')[]) {
  const page = new FakePage();
  const handles: FakeHandle[] = [];
  const states: WakeLockState[] = [];
  let asked = 0;
  const wakeLock = {
    async request(): Promise<FakeHandle> {
      const answer = answers[Math.min(asked, answers.length - 1)];
      asked += 1;
      if (answer === 'refuse') throw new DOMException('low battery', 'NotAllowedError');
      const handle = new FakeHandle();
      handles.push(handle);
      return handle;
    },
  };
  const end = keepAwake({ wakeLock, page }, (state) => states.push(state));
  return { page, handles, states, end };
}

describe('keepAwake', () => {
  beforeEach(() => {
    vi.useFakeTimers();
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it('asks again when the system lets go, and when the page shows', async () => {
    const { page, handles, states } = started(['grant']);
    await vi.advanceTimersByTimeAsync(0);
    expect(states.at(-1)).toBe('held');
    await handles[0]!.release();
    await vi.advanceTimersByTimeAsync(0);
    expect(handles).toHaveLength(2);
    page.show('hidden');
    await handles[1]!.release();
    await vi.advanceTimersByTimeAsync(0);
    expect(states.at(-1)).toBe('hidden');
    page.show('visible');
    await vi.advanceTimersByTimeAsync(0);
    expect(states.at(-1)).toBe('held');
    expect(handles).toHaveLength(3);
  });

  it('shows a refusal and tries every five seconds', async () => {
    const { states } = started(['refuse', 'refuse', 'grant']);
    await vi.advanceTimersByTimeAsync(0);
    expect(states.at(-1)).toBe('refused');
    await vi.advanceTimersByTimeAsync(5_000);
    expect(states.at(-1)).toBe('refused');
    await vi.advanceTimersByTimeAsync(5_000);
    expect(states.at(-1)).toBe('held');
  });

  it('lets go at the end and asks no more', async () => {
    const { handles, end } = started(['grant']);
    await vi.advanceTimersByTimeAsync(0);
    end();
    await vi.advanceTimersByTimeAsync(60_000);
    expect(handles.map(({ released }) => released)).toEqual([true]);
  });

  it('says so where there is no wake lock', () => {
    const states: WakeLockState[] = [];
    keepAwake({ wakeLock: null, page: new FakePage() }, (state) => states.push(state));
    expect(states).toEqual(['unsupported']);
  });
});
