import { describe, expect, it } from 'vitest';
import { compassWords, countWords, doingWords, fistWords, freshnessWords, stillRefused, waitWords } from '../../../src/ui/ground/ground-words.ts';
import type { ShipState } from '../../../src/core/wire/link-messages.ts';
import { readsWords } from '../../../src/ui/words/reads.ts';
import { clockInRow } from '../../../src/ui/words/clock.ts';

describe('the words of the Ground screen', () => {
  it('say waits of days in days', () => {
    expect(waitWords(760)).toBe('12:40');
    expect(waitWords(203 * 86_400 + 7 * 3600)).toBe('203 days');
  });

  it('count to and from the first smoke, in days while it is days away', () => {
    expect(countWords(-760)).toBe('\u221212:40');
    expect(countWords(192.9)).toBe('+3:12');
    expect(countWords(-0.4)).toBe('+0:00');
    expect(countWords(-86_399)).toBe('\u221223:59:59');
    expect(countWords(-(203 * 24 + 13) * 3600 - 437)).toBe('\u2212203\u00a0d 13\u00a0h');
    expect(countWords(86_400)).toBe('+1\u00a0d 0\u00a0h');
  });

  it('tell a ship that knocked it off from one that has written its word', () => {
    const state = { phase: 'finished', character: null, smoke: 'off', strokeNumber: 3, strokeCount: 9 } as ShipState;
    expect([doingWords(state, true), doingWords(state, false)]).toEqual(['knocked off', 'finished']);
    expect(doingWords({ ...state, phase: 'run-in', character: 'S' }, false)).toBe('run in S, stroke 3 of 9');
  });

  it('say why figures were refused only while these stand in the field', () => {
    const refused = { heard: '12', reason: 'Seven figures are wanted' };
    expect([stillRefused(refused, '12'), stillRefused(refused, '123'), stillRefused(refused, ''), stillRefused(null, '')]).toEqual([
      refused.reason,
      null,
      null,
      null,
    ]);
  });

  it('name directions and heights as one says them', () => {
    expect([0, 22.4, 340, 359].map(compassWords)).toEqual(['north', 'north-north-east', 'north-north-west', 'north']);
    // Ten degrees a fist at arm's length: common practice, no source.
    expect([1, 10, 35, 80].map(fistWords)).toEqual(['at the horizon', '1 fist up', '3\u00bd fists up', 'nearly overhead']);
  });

  it('say until when something reads, and how sure that is', () => {
    const at = (seconds: number): string => clockInRow(seconds * 1000, 'UTC').hours;
    expect(readsWords(60, { lowSeconds: 120, likelySeconds: 240, highSeconds: 600 }, at, 'UTC')).toBe('00:01 to 00:02, perhaps 00:10 UTC');
    expect(readsWords(60, { lowSeconds: 30, likelySeconds: 240, highSeconds: 600 }, at, 'UTC')).toBe('00:01 to 00:01, perhaps 00:10 UTC');
    expect(readsWords(null, { lowSeconds: 120, likelySeconds: 121, highSeconds: 130 }, at, 'UTC')).toBe('until 00:02 UTC');
  });

  it('call no old place live', () => {
    expect(freshnessWords({ kind: 'live', ageSeconds: 1.2 })).toBe('live, 1 s');
    for (const fresh of [
      { kind: 'ageing', ageSeconds: 7 },
      { kind: 'stale', ageSeconds: 75 },
      { kind: 'lost', ageSeconds: null },
      { kind: 'unknown' },
      { kind: 'no-position' },
      { kind: 'ended' },
    ] as const) {
      expect(freshnessWords(fresh)).not.toContain('live');
    }
    expect(freshnessWords({ kind: 'stale', ageSeconds: 75 })).toBe('last known 1:15 ago');
  });
});
