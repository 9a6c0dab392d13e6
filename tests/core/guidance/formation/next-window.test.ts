import { describe, expect, it } from 'vitest';
import { aimedLateness, nextWindow } from '../../../../src/core/guidance/formation/next-window.ts';
import type { FormationEntry } from '../../../../src/core/guidance/formation/formation-setup.ts';

const entry: FormationEntry = {
  strokeIndex: 0,
  path: { start: { airEastMetres: 0, airNorthMetres: 0, directionRadians: 0 }, segments: [] },
  leaveSeconds: -40,
  windows: [
    { fromSeconds: -4, toSeconds: 6 },
    { fromSeconds: 60, toSeconds: 70 },
  ],
};
const even = { fallsBehindSeconds: 0, longerWaySeconds: 0 };

describe('nextWindow', () => {
  it('is the first while the ship can be ready, aimed at its middle, and the next window after that', () => {
    const leaving = (readyAtSeconds: number): readonly number[] => {
      const next = nextWindow(entry, 1000, readyAtSeconds, even);
      return [next?.window.fromSeconds ?? NaN, next?.lateSeconds ?? NaN, next?.leaveAtSeconds ?? NaN].map((value) => Math.round(10 * value) / 10);
    };
    expect(leaving(955)).toEqual([-4, 0.8, 960.8]);
    expect(leaving(965)).toEqual([-4, 0.8, 960.8]);
    expect(leaving(967)).toEqual([60, 64.8, 1024.8]);
  });

  it('is null when no window is left', () => {
    expect(nextWindow(entry, 1000, 1031, even)).toBeNull();
  });

  it('lets a slow ship leave sooner and never outside the window', () => {
    const slow = nextWindow(entry, 1000, 900, { fallsBehindSeconds: 2, longerWaySeconds: 5 });
    expect(slow?.leaveAtSeconds).toBeCloseTo(960 - 3.4, 6);
    expect(aimedLateness({ fromSeconds: -4, toSeconds: 6 }, 9)).toBeCloseTo(-3.4, 6);
    expect(aimedLateness({ fromSeconds: -4, toSeconds: 6 }, -9)).toBeCloseTo(2.3, 6);
    // A narrow one in its middle.
    expect(aimedLateness({ fromSeconds: 30, toSeconds: 34 }, 0)).toBe(32);
  });
});
