import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { createPlanPlayer } from '../../../src/app/draw/plan-player.ts';

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

const player = (reduced = false) => createPlanPlayer({ durationSeconds: () => 60, stopsSeconds: () => [10, 25, 60], reducedMotion: () => reduced });

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
