import { describe, expect, it } from 'vitest';
import type { SitePoint } from '../../../src/core/earth/site-frame.ts';
import { STANDING_LIMITS, standingSpan } from '../../../src/core/sky/standing-span.ts';

const DEGREE = Math.PI / 180;
const FRONT_METRES = 2_700 / Math.tan(35 * DEGREE);
/** The crowd looks north at a layer 2,700 m up. */
const WISH = { facingRadians: 0, layerAboveSiteMetres: 2_700 };
/** Level and 35 degrees high at 0 s, carried by a wind. */
const carried =
  (eastMetresPerSecond: number, northMetresPerSecond: number) =>
  (at: number): SitePoint => ({ eastMetres: eastMetresPerSecond * at, northMetres: FRONT_METRES + northMetresPerSecond * at });

describe('how long a text stands for the crowd', () => {
  it('ends when the drift has turned its line by 15 degrees', () => {
    const span = standingSpan(carried(9, 0), WISH, 0, 3_600);
    expect(span).toMatchObject({ fromSeconds: 0, endedBy: 'leaning' });
    // By hand, on a flat earth: tan(aside) sin(elevation) = tan 15 degrees at 1,950 m aside.
    const aside = Math.atan2(1_950, FRONT_METRES);
    expect(Math.tan(aside) * Math.sin(Math.atan2(2_700, Math.hypot(1_950, FRONT_METRES)))).toBeCloseTo(Math.tan(STANDING_LIMITS.leanRadians), 3);
    expect(span?.untilSeconds).toBeGreaterThan(1_945 / 9);
    expect(span?.untilSeconds).toBeLessThan(1_955 / 9);
  });

  it('begins when the drift brings it level, and is as long before as after', () => {
    const span = standingSpan(carried(9, 0), WISH, -900, 3_600);
    expect((span?.fromSeconds ?? 0) + (span?.untilSeconds ?? 0)).toBeCloseTo(0, 0);
  });

  it('ends when it is carried down to 12 degrees, with a wind that turns nothing', () => {
    const span = standingSpan(carried(0, 10), WISH, 0, 3_600);
    expect(span?.endedBy).toBe('low');
    // 2,700 / tan(12 degrees) from the crowd, less what the earth bends away.
    expect((span?.untilSeconds ?? 0) * 10 + FRONT_METRES).toBeGreaterThan(12_550);
    expect((span?.untilSeconds ?? 0) * 10 + FRONT_METRES).toBeLessThan(2_700 / Math.tan(12 * DEGREE));
  });

  it('has no end in still air, and is none where it never stands', () => {
    expect(standingSpan(carried(0, 0), WISH, 0, 3_600)).toEqual({ fromSeconds: 0, untilSeconds: 3_600, endedBy: null });
    expect(standingSpan(carried(0, 0), { ...WISH, facingRadians: Math.PI }, 0, 3_600)).toBeNull();
    expect(standingSpan(carried(9, 0), WISH, 300, 300)).toBeNull();
  });
});
