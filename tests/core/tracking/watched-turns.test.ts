import { describe, expect, it } from 'vitest';
import { ORDINARY_ONSET_SECONDS } from '../../../src/core/tracking/fix-time.ts';
import { isWatched, turnWatched } from '../../../src/core/tracking/watched-turns.ts';

const onset = (beyondSeconds: number): number => ORDINARY_ONSET_SECONDS + beyondSeconds;

describe('turns that tell the time of the fixes', () => {
  it('doubts at one that came late, and says late when the next one tells the same', () => {
    const first = turnWatched(undefined, 10, onset(3), false);
    expect(first.verdict).toBe('doubted');
    const second = turnWatched(first, 40, onset(4), false);
    expect(second.verdict).toBe('late');
    expect(second.beyondSeconds).toBeCloseTo(3.5, 9);
    expect(turnWatched(second, 80, onset(0), false)).toBe(second);
  });

  it('takes back a doubt that the next turn does not bear out', () => {
    expect(turnWatched(turnWatched(undefined, 10, onset(3), false), 40, onset(0.5), false).verdict).toBe('in-time');
  });

  it('looks at each turn once, and lets an ordinary hand pass', () => {
    const first = turnWatched(undefined, 10, onset(2.1), false);
    expect(first.verdict).toBe('in-time');
    expect(turnWatched(first, 10, onset(9), false)).toBe(first);
  });

  it('asks where four turns came late by less than one alone would raise a doubt with, and lays no doubt on one once there is smoke', () => {
    let turns = turnWatched(undefined, 10, onset(2), false);
    for (const [cuedAtSeconds, beyondSeconds] of [
      [40, 1.9],
      [70, 1.6],
    ] as const)
      turns = turnWatched(turns, cuedAtSeconds, onset(beyondSeconds), true);
    expect(turns.verdict).toBe('in-time');
    expect(turnWatched(turns, 100, onset(1.4), true)).toMatchObject({ verdict: 'late', beyondSeconds: expect.closeTo(1.725, 9) as number });
    // An ordinary pilot of the desk (seed 9): asked for nothing while the mean of two sufficed.
    const twice = turnWatched(turnWatched(undefined, 10, onset(2.8), false), 40, onset(2.1), false);
    expect(twice.verdict).toBe('doubted');
    expect(turnWatched(twice, 70, onset(0.3), false).verdict).toBe('in-time');
    expect(turnWatched(twice, 70, onset(1.9), false).verdict).toBe('late');
    expect(turnWatched(undefined, 10, onset(3), true).verdict).toBe('in-time');
  });

  it('watches stamps that were believed, until the pilot was asked', () => {
    const anchor = { ageSeconds: 0.7, stampLessFlightSeconds: 5 };
    const late = turnWatched(turnWatched(undefined, 10, onset(3), false), 40, onset(4), false);
    expect(isWatched({ lastAgeSeconds: 0.7, steady: true, anchor })).toBe(true);
    expect(isWatched({ lastAgeSeconds: 0.7, steady: true })).toBe(false);
    expect(isWatched({ lastAgeSeconds: 0.7, steady: true, anchor, turns: late })).toBe(false);
  });
});
