import { describe, expect, it } from 'vitest';
import { steppedNumber } from '../../../src/ui/fields/NumberField.tsx';

describe('the minus and plus keys', () => {
  it('go to whole steps, once each', () => {
    expect(steppedNumber(3937, 1, 100, [100, 20_000], false)).toBe(4000);
    expect(steppedNumber(3937, -1, 100, [100, 20_000], false)).toBe(3900);
    expect(steppedNumber(4000, 1, 100, [100, 20_000], false)).toBe(4100);
    expect(steppedNumber(0.3, 1, 0.1, [0, 5], false)).toBe(0.4);
    expect(steppedNumber(0.3, -1, 0.1, [0, 5], false)).toBe(0.2);
  });

  it('stop at the ends, or go round for bearings', () => {
    expect(steppedNumber(75, 1, 5, [5, 75], false)).toBe(75);
    expect(steppedNumber(5, -1, 5, [5, 75], false)).toBe(5);
    expect(steppedNumber(355, 1, 5, [0, 360], true)).toBe(0);
    expect(steppedNumber(0, -1, 5, [0, 360], true)).toBe(355);
    expect(steppedNumber(2, -1, 5, [0, 360], true)).toBe(0);
  });
});
