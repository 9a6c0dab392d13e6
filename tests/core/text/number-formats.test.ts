import { describe, expect, it } from 'vitest';
import { formatBearing, formatDuration, formatLatitude, formatLongitude, formatNumber } from '../../../src/core/text/number-formats.ts';

describe('numbers on the screens', () => {
  it('groups thousands and writes what is not known as a dash', () => {
    expect(formatNumber(12_499.6)).toBe('12,500');
    expect(formatNumber(3.44, 1)).toBe('3.4');
    expect(formatNumber(-12)).toBe('\u221212');
    expect(formatNumber(-0.02, 1)).toBe('0.0');
    expect(formatNumber(Number.NaN)).toBe('\u2013');
  });

  it('carries rounded seconds into minutes and hours', () => {
    expect(formatDuration(0)).toBe('0:00');
    expect(formatDuration(59.6)).toBe('1:00');
    expect(formatDuration(462.4)).toBe('7:42');
    expect(formatDuration(3730)).toBe('1:02:10');
    expect(formatDuration(-75)).toBe('\u22121:15');
    expect(formatDuration(-0.2)).toBe('0:00');
  });

  it('writes bearings in three digits and north as 000', () => {
    expect(formatBearing(4.6)).toBe('005');
    expect(formatBearing(359.7)).toBe('000');
    expect(formatBearing(-90)).toBe('270');
  });

  it('carries 59.999 minutes into the next degree', () => {
    expect(formatLatitude(47.520_83)).toBe('47\u00b0\u00a031.25\u2032\u00a0N');
    expect(formatLatitude(-0.999_999)).toBe('01\u00b0\u00a000.00\u2032\u00a0S');
    expect(formatLongitude(11.04)).toBe('011\u00b0\u00a002.40\u2032\u00a0E');
    expect(formatLongitude(-105.1786)).toBe('105\u00b0\u00a010.72\u2032\u00a0W');
  });
});
