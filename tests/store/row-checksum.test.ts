import { describe, expect, it } from 'vitest';
import { fnv1a } from '../../src/store/row-checksum.ts';

describe('row checksum', () => {
  // The authors' published test vectors for FNV-1a, 32 bits.
  it.each([
    ['', 0x81_1c_9d_c5],
    ['a', 0xe4_0c_29_2c],
    ['foobar', 0xbf_9c_f9_68],
  ])('of %j is the published one', (text, hash) => {
    expect(fnv1a(text)).toBe(hash);
  });
});
