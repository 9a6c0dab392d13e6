import { describe, expect, it } from 'vitest';
import { againstTrack, ratingFromPhotograph } from '../../../src/core/debrief/photographed-letter.ts';
import { ratedEnds } from '../../../src/core/debrief/lessons/spreading.ts';

const seen = (foundShare: number, offHeights: number | null = 0.01) => ({ letterIndex: 2, foundShare, offHeights });

describe('a letter in a photograph', () => {
  it('counts as seen at its moment, among the ratings', () => {
    expect(ratingFromPhotograph(seen(0.9), 700)).toEqual({ letterIndex: 2, atSeconds: 700, reads: 'well' });
    const ends = ratedEnds([ratingFromPhotograph(seen(0.9), 700), ratingFromPhotograph(seen(0.4), 900), ratingFromPhotograph(seen(0.1), 1200)]);
    expect(ends).toEqual([{ letterIndex: 2, notBeforeSeconds: 900, notAfterSeconds: 1200 }]);
  });

  it('stands against the track where one has smoke that the other has not', () => {
    expect(againstTrack(seen(0.9), 1)).toBe('as flown');
    expect(againstTrack(seen(0.4), 1)).toBe('less smoke');
    // The valve stayed shut by the track already: both say the same.
    expect(againstTrack(seen(0.4), 0.4)).toBe('as flown');
    expect(againstTrack(seen(0.9, 0.08), 1)).toBe('elsewhere');
    expect(againstTrack(seen(0, null), 0)).toBe('as flown');
  });
});
