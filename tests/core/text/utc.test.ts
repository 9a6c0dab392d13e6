import { fc } from '../../property.ts';
import { describe, expect, it } from 'vitest';
import { civilFromDays, daysFromCivil, millisecondsFromRfc3339, rfc3339FromMilliseconds } from '../../../src/core/text/utc.ts';

describe('dates and instants', () => {
  it('reads the examples of RFC 3339, section 5.8', () => {
    expect(millisecondsFromRfc3339('1985-04-12T23:20:50.52Z')).toBe(Date.UTC(1985, 3, 12, 23, 20, 50, 520));
    expect(millisecondsFromRfc3339('1996-12-19T16:39:57-08:00')).toBe(Date.UTC(1996, 11, 20, 0, 39, 57));
    expect(millisecondsFromRfc3339('1990-12-31T23:59:60Z')).toBe(Date.UTC(1991, 0, 1));
    expect(millisecondsFromRfc3339('1990-12-31T15:59:60-08:00')).toBe(Date.UTC(1991, 0, 1));
    expect(millisecondsFromRfc3339('1937-01-01T12:00:27.87+00:20')).toBe(Date.UTC(1937, 0, 1, 11, 40, 27, 870));
  });

  it('takes a text without a zone as UTC, as GPX has it', () => {
    expect(millisecondsFromRfc3339('2026-06-20T10:00:00')).toBe(Date.UTC(2026, 5, 20, 10));
    expect(millisecondsFromRfc3339('2026-06-20T12:00:00+02:00')).toBe(Date.UTC(2026, 5, 20, 10));
  });

  it('knows the calendar', () => {
    expect(daysFromCivil(2000, 3, 1)).toBe(11_017);
    expect(millisecondsFromRfc3339('2100-02-29T00:00:00Z')).toBeNull();
    expect(millisecondsFromRfc3339('2000-02-29T00:00:00Z')).toBe(Date.UTC(2000, 1, 29));
    for (const text of [
      '',
      'noon',
      '2026-13-01T00:00:00Z',
      '2026-04-31T00:00:00Z',
      '2026-04-00T00:00:00Z',
      '2026-04-01T24:00:00Z',
      '2026-04-01',
      '20260401T000000Z',
    ]) {
      expect(millisecondsFromRfc3339(text), text).toBeNull();
    }
  });

  it('agrees with the calendar of the platform, and back', () => {
    fc.assert(
      fc.property(fc.integer({ min: Date.UTC(100, 0, 1), max: Date.UTC(9999, 11, 31) }), (timeMilliseconds) => {
        const text = rfc3339FromMilliseconds(timeMilliseconds);
        expect(Date.parse(text)).toBe(timeMilliseconds);
        expect(millisecondsFromRfc3339(text)).toBe(timeMilliseconds);
        const days = Math.floor(timeMilliseconds / 86_400_000);
        const { year, month, day } = civilFromDays(days);
        expect(daysFromCivil(year, month, day)).toBe(days);
      }),
      { numRuns: 2000 },
    );
  });

  it('writes no fraction when there is none', () => {
    expect(rfc3339FromMilliseconds(0)).toBe('1970-01-01T00:00:00Z');
    expect(rfc3339FromMilliseconds(-1)).toBe('1969-12-31T23:59:59.999Z');
    expect(() => rfc3339FromMilliseconds(Number.NaN)).toThrow(RangeError);
    expect(() => rfc3339FromMilliseconds(1e15)).toThrow(RangeError);
  });
});
