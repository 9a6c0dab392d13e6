import { fc } from '../../property.ts';
import { describe, expect, test } from 'vitest';
import { shownDepthRadians } from '../../../src/core/sky/shown-size.ts';
import { contrastThroughAir, levelRangeMetres } from '../../../src/core/sky/plume.ts';
import { readableRadius } from '../../../src/core/sky/readable-radius.ts';
import { READING_LIMITS } from '../../../src/core/sky/reading-window.ts';
import { statuteMilesFromMetres } from '../../../src/core/units/quantity.ts';

describe('readable radius', () => {
  test('letters a mile high two miles up: 15 to 20 miles (a reference entry on the trade; order of magnitude)', () => {
    const miles = statuteMilesFromMetres(readableRadius(1_609.344, 3_048, 0.5, null).radiusMetres);
    expect(miles).toBeCloseTo(17.96, 1);
  });

  test('at the radius the depth shown is the limit, within the small-angle form', () => {
    fc.assert(
      fc.property(fc.double({ min: 300, max: 2_000, noNaN: true }), fc.double({ min: 1_000, max: 5_000, noNaN: true }), (height, above) => {
        const { radiusMetres } = readableRadius(height, above, 1, null);
        const shown = shownDepthRadians(height, above, Math.atan2(above, radiusMetres));
        expect(Math.abs(shown / READING_LIMITS.shownDepthRadians - 1)).toBeLessThan(0.02);
      }),
    );
  });

  test('haze ends it where the contrast is down to the limit', () => {
    const found = readableRadius(1_200, 2_700, 0.3, 15_000);
    expect(found.endedBy).toBe('faint');
    expect(contrastThroughAir(0.3, levelRangeMetres(Math.hypot(found.radiusMetres, 2_700), 2_700), 15_000)).toBeCloseTo(READING_LIMITS.contrast, 9);
    expect(found.radiusMetres).toBeLessThan(readableRadius(1_200, 2_700, 0.3, 60_000).radiusMetres);
  });

  test('from nowhere: too faint, too small, too hazy', () => {
    expect(readableRadius(1_200, 2_700, 0.05, null)).toEqual({ radiusMetres: 0, endedBy: 'faint' });
    expect(readableRadius(10, 2_700, 1, null)).toEqual({ radiusMetres: 0, endedBy: 'too far' });
    expect(readableRadius(1_200, 2_700, 0.1, 2_000)).toEqual({ radiusMetres: 0, endedBy: 'faint' });
    expect(() => readableRadius(0, 2_700, 1, null)).toThrow(RangeError);
  });
});
