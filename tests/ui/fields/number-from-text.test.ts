import { describe, expect, it } from 'vitest';
import { numberFromText } from '../../../src/ui/fields/number-from-text.ts';

describe('typed numbers', () => {
  it.each([
    ['4000', 4000],
    [' 12,500 ', 12_500],
    ['12 500', 12_500],
    ['0,3', 0.3],
    ['.5', 0.5],
    ['\u22125', -5],
    ['45.', 45],
  ])('reads %j', (text, value) => expect(numberFromText(text, -10, 99_999)).toEqual({ ok: true, value }));

  it.each([
    ['', /No number/],
    ['4o', /not a number/],
    ['1e5', /not a number/],
    ['Infinity', /not a number/],
    ['90', /between 5 and 80/],
    ['0', /between 5 and 80/],
  ])('says what is wrong with %j', (text, reason) => {
    const read = numberFromText(text, 5, 80);
    expect(read.ok ? '' : read.reason).toMatch(reason);
  });
});
