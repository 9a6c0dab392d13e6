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
  it('is on time while the ship can be ready, and the next window after that', () => {
    expect(nextWindow(entry, 1000, 955, even)).toMatchObject({ lateSeconds: 0, leaveAtSeconds: 960 });
    expect(nextWindow(entry, 1000, 965, even)).toMatchObject({ lateSeconds: 0, leaveAtSeconds: 960 });
    expect(nextWindow(entry, 1000, 967, even)).toMatchObject({ window: { fromSeconds: 60 }, lateSeconds: 63, leaveAtSeconds: 1023 });
  });

  it('is null when no window is left', () => {
    expect(nextWindow(entry, 1000, 1031, even)).toBeNull();
  });

  it('lets a slow ship leave sooner and never outside the window', () => {
    const slow = nextWindow(entry, 1000, 900, { fallsBehindSeconds: 2, longerWaySeconds: 5 });
    expect(slow?.leaveAtSeconds).toBeCloseTo(960 - 3.4, 6);
    expect(aimedLateness({ fromSeconds: -4, toSeconds: 6 }, 9)).toBeCloseTo(-3.4, 6);
    expect(aimedLateness({ fromSeconds: -4, toSeconds: 6 }, -9)).toBe(1.5);
  });
});
