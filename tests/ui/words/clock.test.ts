import { describe, expect, it } from 'vitest';
import { bothClocks, clockInRow, clockText, dayText } from '../../../src/ui/words/clock.ts';

const at = Date.UTC(2027, 5, 19, 17, 30, 5);

describe('hours as they are written', () => {
  it('always have their zone beside them', () => {
    expect(clockText(at, 'America/New_York')).toBe('13:30 EDT');
    expect(clockText(at, 'America/New_York', { seconds: true })).toBe('13:30:05 EDT');
    expect(clockText(at, 'Europe/Paris', { seconds: true })).toBe('19:30:05 GMT+2');
    expect(clockText(at, 'UTC')).toBe('17:30 UTC');
    expect(clockText(at, 'America/New_York', { day: 'date' })).toBe('19 Jun 2027, 13:30 EDT');
    expect(clockText(at, 'America/New_York', { day: 'weekday' })).toBe('Sat 19 Jun 2027, 13:30 EDT');
    expect(clockInRow(at, 'America/New_York')).toEqual({ hours: '13:30', zone: 'EDT' });
  });

  it('are in UTC, and say so, where the zone is not known', () => {
    expect(clockText(at, 'Nowhere/Land')).toBe('17:30 UTC');
    expect(dayText(Date.UTC(2027, 5, 19, 2), 'Nowhere/At_All')).toBe('Saturday, 19 June 2027 UTC');
  });

  it('are those of the place where the day has begun or not', () => {
    expect(dayText(Date.UTC(2027, 5, 19, 2), 'America/New_York')).toBe('Friday, 18 June 2027');
    expect(clockText(Date.UTC(2027, 5, 19, 4), 'America/New_York')).toBe('00:00 EDT');
  });

  it('stand twice on a sheet, once where the place goes by UTC', () => {
    expect(bothClocks(at, 'America/New_York')).toBe('17:30:05 UTC (13:30 EDT)');
    expect(bothClocks(at, 'UTC')).toBe('17:30:05 UTC');
  });

  it('are a dash for no time', () => {
    for (const text of [clockText(Number.NaN, 'UTC'), bothClocks(Number.NaN, 'UTC'), dayText(Infinity, 'UTC')]) expect(text).toBe('\u2013');
  });
});
