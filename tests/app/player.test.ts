import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { createPlayer, PLAN_RATES } from '../../src/app/player.ts';

let frames: FrameRequestCallback[] = [];
let now = 0;

/** Runs the frames asked for, so many milliseconds later; says how many there were. */
function frame(milliseconds: number): number {
  now += milliseconds;
  const due = frames;
  frames = [];
  for (const call of due) call(now);
  return due.length;
}

beforeEach(() => {
  frames = [];
  vi.useFakeTimers();
  vi.stubGlobal('requestAnimationFrame', (call: FrameRequestCallback) => frames.push(call));
  vi.stubGlobal('cancelAnimationFrame', () => (frames = []));
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

const player = (reduced = false) =>
  createPlayer({
    span: () => ({ fromSeconds: 0, toSeconds: 60 }),
    rates: PLAN_RATES,
    rate: 20,
    stopsSeconds: () => [10, 25, 60],
    reducedMotion: () => reduced,
  });

describe('playing a plan', () => {
  it('asks for frames only while it plays', () => {
    const one = player();
    expect(frames).toHaveLength(0);
    one.seek(30);
    expect(frames).toHaveLength(0);
    one.play();
    expect(frames).toHaveLength(1);
    one.pause();
    expect(frame(16)).toBe(0);
  });

  it('runs at its rate and stops at the end', () => {
    const one = player();
    one.setRate(20);
    one.play();
    frame(16);
    for (let count = 0; count < 10; count++) frame(100);
    expect(one.atSeconds.value).toBeCloseTo(20, 6);
    for (let count = 0; count < 30; count++) frame(100);
    expect(one.atSeconds.value).toBe(60);
    expect(one.playing.value).toBe(false);
    expect(frames).toHaveLength(0);
    one.play();
    expect(one.atSeconds.value).toBe(0);
  });

  it('does not leap after the page was hidden', () => {
    const one = player();
    one.setRate(1);
    one.play();
    frame(16);
    frame(30_000);
    expect(one.atSeconds.value).toBeCloseTo(0.25, 6);
  });

  it('shows stills instead when motion is to be reduced', () => {
    const one = player(true);
    one.play();
    expect(frames).toHaveLength(0);
    expect(one.atSeconds.value).toBe(0);
    vi.advanceTimersByTime(950);
    expect(one.atSeconds.value).toBe(10);
    vi.advanceTimersByTime(900);
    expect(one.atSeconds.value).toBe(25);
    one.pause();
    vi.advanceTimersByTime(5000);
    expect(one.atSeconds.value).toBe(25);
  });

  it('without stops shows stills as far apart as the rate comes in the time between', () => {
    const one = createPlayer({ span: () => ({ fromSeconds: 100, toSeconds: 160 }), rates: PLAN_RATES, rate: 5, reducedMotion: () => true });
    one.play();
    vi.advanceTimersByTime(1000);
    expect(one.atSeconds.value).toBeCloseTo(104.5, 9);
    vi.advanceTimersByTime(60_000);
    expect([one.atSeconds.value, one.playing.value]).toEqual([160, false]);
  });

  it('has nothing to play while nothing is open', () => {
    const one = createPlayer({ span: () => null, rates: PLAN_RATES, rate: 5, reducedMotion: () => false });
    one.play();
    one.seek(10);
    expect([one.atSeconds.value, one.playing.value, frames.length]).toEqual([null, false, 0]);
  });

  it('keeps an instant inside the plan', () => {
    const one = player();
    one.seek(-5);
    expect(one.atSeconds.value).toBe(0);
    one.seek(500);
    expect(one.atSeconds.value).toBe(60);
    one.seek(null);
    expect(one.atSeconds.value).toBeNull();
  });
});
