import { describe, expect, it } from 'vitest';
import { instantFromLocalText, localTextFromInstant, utcText, zoneOffsetMilliseconds } from '../../../src/ui/words/zoned-time.ts';

describe('local times', () => {
  // Offsets: IANA time zone database, Europe/Zurich +1 and, from the last Sunday of March to that of October, +2.
  it.each([
    ['2026-07-18T13:30:00Z', 'Europe/Zurich', '2026-07-18T15:30'],
    ['2026-01-18T13:30:00Z', 'Europe/Zurich', '2026-01-18T14:30'],
    ['2026-07-18T23:30:00Z', 'America/Denver', '2026-07-18T17:30'],
    ['2026-07-18T13:30:00Z', 'Asia/Kolkata', '2026-07-18T19:00'],
    ['2026-12-31T23:30:00Z', 'Pacific/Kiritimati', '2027-01-01T13:30'],
  ])('%s in %s is %s, and back', (utc, zone, local) => {
    expect(localTextFromInstant(Date.parse(utc), zone)).toBe(local);
    expect(utcText(instantFromLocalText(local, zone) ?? Number.NaN)).toBe(utc);
  });

  it('reads the hour lived twice as the earlier, and the hour leapt over with the offset before', () => {
    // 25 October 2026: 03:00 summer time becomes 02:00; 29 March 2026: 02:00 becomes 03:00.
    expect(utcText(instantFromLocalText('2026-10-25T02:30', 'Europe/Zurich') ?? Number.NaN)).toBe('2026-10-25T00:30:00Z');
    expect(utcText(instantFromLocalText('2026-03-29T02:30', 'Europe/Zurich') ?? Number.NaN)).toBe('2026-03-29T01:30:00Z');
    expect(utcText(instantFromLocalText('2026-03-29T03:10', 'Europe/Zurich') ?? Number.NaN)).toBe('2026-03-29T01:10:00Z');
  });

  it('knows nothing of unknown zones and broken texts', () => {
    expect(localTextFromInstant(0, 'Lake/Ondine')).toBeNull();
    expect(zoneOffsetMilliseconds(Number.NaN, 'UTC')).toBeNull();
    expect(instantFromLocalText('soon', 'UTC')).toBeNull();
    expect(instantFromLocalText('2026-13-40T00:00', 'UTC')).toBeNull();
  });
});
