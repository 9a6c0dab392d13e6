import { describe, expect, it } from 'vitest';
import { counted } from '../../../src/core/text/counted.ts';

describe('a count with its word', () => {
  it('has one of a thing, and several of others', () => {
    expect([0, 1, 2].map((count) => counted(count, 'opening'))).toEqual(['0 openings', '1 opening', '2 openings']);
    expect([1, 3].map((count) => counted(count, 'entry', 'entries'))).toEqual(['1 entry', '3 entries']);
  });
});
