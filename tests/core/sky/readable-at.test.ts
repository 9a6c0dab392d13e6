import { describe, expect, test } from 'vitest';
import { readableAt } from '../../../src/core/sky/readable-at.ts';
import { SMOKE_RANGE } from '../../../src/core/sky/smoke-range.ts';
import { trailsFromPlan } from '../../../src/core/sky/trail.ts';
import { metresFromStatuteMiles } from '../../../src/core/units/quantity.ts';
import { plannedText } from './planned.ts';

const plan = plannedText('GO', { oilKilogramsPerSecond: 0.34 });
const trails = trailsFromPlan(plan, 60);
const REQUEST = { letterHeightMetres: plan.letterHeightMetres, aboveGroundMetres: 3_000, shear: null, visibilityMetres: null, smoke: SMOKE_RANGE.likely };

describe('from how far a text is read', () => {
  test('miles when it is fresh, from nowhere once it is faint, never farther in haze', () => {
    const fresh = readableAt(trails, plan.durationSeconds, REQUEST);
    // A reference work gives 15 to 20 miles for letters a mile high; these are smaller.
    expect(fresh.radiusMetres).toBeGreaterThan(metresFromStatuteMiles(5));
    expect(fresh.radiusMetres).toBeLessThan(metresFromStatuteMiles(20));
    const haze = readableAt(trails, plan.durationSeconds, { ...REQUEST, visibilityMetres: metresFromStatuteMiles(5) });
    expect(haze.endedBy).toBe('faint');
    expect(haze.radiusMetres).toBeLessThan(fresh.radiusMetres);
    expect(readableAt(trails, 6 * 3600, REQUEST)).toEqual({ radiusMetres: 0, endedBy: 'faint' });
  });

  test('from nowhere without smoke', () => {
    expect(readableAt([], 0, REQUEST)).toEqual({ radiusMetres: 0, endedBy: 'faint' });
  });
});
