import { fc } from '../property.ts';
import { describe, expect, it } from 'vitest';
import { backoffSeconds } from '../../src/link/backoff.ts';

describe('the wait before the next attempt', () => {
  it('lies between 1 and 30 s whatever happens', () => {
    fc.assert(
      fc.property(fc.nat(1000), fc.double({ min: 0, max: 1, noNaN: true }), (failures, random) => {
        const seconds = backoffSeconds(failures, random);
        expect(seconds).toBeGreaterThanOrEqual(1);
        expect(seconds).toBeLessThanOrEqual(30);
      }),
    );
  });

  it('doubles and is spread over half its bound', () => {
    expect([0, 1, 2, 3, 4, 5].map((failures) => backoffSeconds(failures, 1))).toEqual([2, 4, 8, 16, 30, 30]);
    expect([0, 1, 2, 3, 4, 5].map((failures) => backoffSeconds(failures, 0))).toEqual([1, 2, 4, 8, 15, 15]);
  });
});
