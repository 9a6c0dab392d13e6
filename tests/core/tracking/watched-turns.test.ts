import { describe, expect, it } from 'vitest';
import { ORDINARY_ONSET_SECONDS } from '../../../src/core/tracking/fix-time.ts';
import { isWatched, turnWatched } from '../../../src/core/tracking/watched-turns.ts';

const onset = (beyondSeconds: number): number => ORDINARY_ONSET_SECONDS + beyondSeconds;

describe('turns that tell the time of the fixes', () => {
  it('doubts at one that came late, and says late when the next one tells the same', () => {
    const first = turnWatched(undefined, 10, onset(3));
    expect(first.verdict).toBe('doubted');
    const second = turnWatched(first, 40, onset(4));
    expect(second.verdict).toBe('late');
    expect(second.beyondSeconds).toBeCloseTo(3.5, 9);
    expect(turnWatched(second, 80, onset(0))).toBe(second);
  });

  it('takes back a doubt that the next turn does not bear out', () => {
    expect(turnWatched(turnWatched(undefined, 10, onset(3)), 40, onset(0.5)).verdict).toBe('in-time');
  });

  it('looks at each turn once, and lets an ordinary hand pass', () => {
    const first = turnWatched(undefined, 10, onset(2.4));
    expect(first.verdict).toBe('in-time');
    expect(turnWatched(first, 10, onset(9))).toBe(first);
  });

  it('watches only stamps that look ordinary', () => {
    const anchor = { ageSeconds: 0.7, stampLessFlightSeconds: 5 };
    expect(isWatched({ lastAgeSeconds: 0.7, steady: true, anchor })).toBe(true);
    expect(isWatched({ lastAgeSeconds: 0.7, steady: true })).toBe(false);
    expect(isWatched({ lastAgeSeconds: 3, steady: true, anchor, lateSeconds: 3 })).toBe(false);
  });
});
