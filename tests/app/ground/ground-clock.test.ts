import { fc } from '../../property.ts';
import { describe, expect, it } from 'vitest';
import { datumFromHack, datumFromPlan, datumMoved, sinceDatum } from '../../../src/app/ground/ground-clock.ts';

const at = (wallMilliseconds: number, monotonicMilliseconds = wallMilliseconds) => ({ wallMilliseconds, monotonicMilliseconds });

describe('the ground\u2019s clock', () => {
  it('goes by the plan and the device\u2019s clock until a call is heard', () => {
    expect(sinceDatum(datumFromPlan(1_000_000, 300), at(700_000))).toBe(0);
    expect(sinceDatum(datumFromPlan(1_000_000, 300), at(760_000))).toBe(60);
  });

  it('counts from a call, whatever the device\u2019s clock says of the time', () => {
    fc.assert(
      fc.property(fc.integer({ min: -1e9, max: 1e9 }), fc.integer({ min: 0, max: 600 }), fc.integer({ min: 0, max: 3600 }), (wrong, ahead, passed) => {
        const datum = datumFromHack(at(1e12 + wrong, 5000), ahead);
        expect(sinceDatum(datum, at(1e12 + wrong + passed * 1000, 5000 + passed * 1000))).toBeCloseTo(passed - ahead, 6);
      }),
    );
  });

  it('counts through a sleep of the page, and not back when the clock is set back', () => {
    const datum = datumFromHack(at(1e12, 0), 0);
    expect(sinceDatum(datum, at(1e12 + 90_000, 30_000))).toBe(90);
    expect(sinceDatum(datum, at(1e12 - 300_000, 60_000))).toBe(60);
  });

  it('is moved by hand, and is then no longer the plan\u2019s', () => {
    const moved = datumMoved(datumFromHack(at(1e12, 0), 0), 2);
    expect(sinceDatum(moved, at(1e12 + 10_000, 10_000))).toBe(8);
    expect(datumMoved(datumFromPlan(1_000_000, 0), 1).source).toBe('radio');
  });
});
