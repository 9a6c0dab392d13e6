import { describe, expect, it } from 'vitest';
import { agedDoubtSeconds, ageJudged, ageJudgedAgain, ASSUMED_LATENCY_SECONDS, fixTime, ORDINARY_ONSET_SECONDS } from '../../../src/core/tracking/fix-time.ts';
import type { StampTrust } from '../../../src/core/tracking/stamp-trust.ts';

const WALL = Date.UTC(2027, 5, 19, 17, 0, 0);
/** The trust with turns that showed so long after their cues. */
const turned = (trust: StampTrust, ...onsetsSeconds: readonly number[]): StampTrust => ({
  ...trust,
  turns: { lastCuedAtSeconds: 0, beyonds: onsetsSeconds.map((one) => one - ORDINARY_ONSET_SECONDS), beyondSeconds: 0, verdict: 'in-time' },
});
const unknown = { lastAgeSeconds: null, steady: false };

describe('fixTime', () => {
  it('takes a steady stamp from the second fix on', () => {
    const first = fixTime(10, WALL, WALL - 700, unknown);
    expect(first).toMatchObject({ source: 'arrival', measuredAtSeconds: 10 - ASSUMED_LATENCY_SECONDS });
    const second = fixTime(11, WALL + 1000, WALL + 250, first.trust);
    expect(second.source).toBe('stamp');
    expect(second.measuredAtSeconds).toBeCloseTo(10.25, 9);
  });

  it.each([
    ['none', null],
    ['of the year 2001, as some Safari versions give', Date.UTC(2001, 0, 1)],
    ['of the arrival itself', WALL],
    ['in the future', WALL + 5000],
    ['ten seconds old, which no live position is', WALL - 10_000],
  ])('falls back on the arrival for a stamp %s', (_, stamp) => {
    const steady = { lastAgeSeconds: stamp === null ? null : (WALL - stamp) / 1000, steady: true };
    expect(fixTime(10, WALL, stamp, steady)).toMatchObject({ source: 'arrival', measuredAtSeconds: 9.4 });
  });

  it('distrusts stamps of a clock that runs apart from ours', () => {
    let trust: StampTrust = unknown;
    const sources = [0, 1, 2, 3].map((second) => {
      const time = fixTime(second, WALL + second * 1000, WALL - 500 + second * 30, trust);
      trust = time.trust;
      return time.source;
    });
    expect(sources).toEqual(['arrival', 'arrival', 'arrival', 'arrival']);
  });

  it('knows a fix that was held up on its way by its stamp, and the next one again', () => {
    const steady = { lastAgeSeconds: 0.7, steady: true };
    const late = fixTime(20, WALL, WALL - 1900, steady);
    expect(late.measuredAtSeconds).toBeCloseTo(18.1, 9);
    expect(fixTime(20.1, WALL + 100, WALL - 600, late.trust).measuredAtSeconds).toBeCloseTo(19.4, 9);
  });
});

describe('a stamp that is steadily 2.7 s old', () => {
  const steady = fixTime(11, WALL + 1000, WALL - 1700, fixTime(10, WALL, WALL - 2700, unknown).trust);

  it('is a clock that is ahead or a receiver that is late: it is not believed, and the doubt is said', () => {
    expect(steady).toMatchObject({ source: 'arrival', measuredAtSeconds: 10.4 });
    expect(agedDoubtSeconds(steady.trust)).toBeCloseTo(2.1, 9);
  });

  it('is a clock 2.1 s ahead where a turn shows in time', () => {
    const trust = ageJudged(turned(steady.trust, 4.2));
    expect(trust.clockAheadSeconds).toBeCloseTo(2.1, 9);
    expect(agedDoubtSeconds(trust)).toBeNull();
    expect(fixTime(12, WALL + 2000, WALL - 700, trust)).toMatchObject({ source: 'stamp', measuredAtSeconds: expect.closeTo(11.4, 9) as number });
    // Set by another 30 s, the clock changes nothing: the stamps are as old as ever by the monotonic one.
    expect(fixTime(12, WALL + 32_000, WALL - 700, trust).measuredAtSeconds).toBeCloseTo(11.4, 9);
  });

  it('is a receiver 2.7 s late where the turn shows that much later', () => {
    const trust = ageJudged(turned(steady.trust, 6.6));
    expect(trust.lateSeconds).toBeCloseTo(2.7, 9);
    expect(fixTime(12, WALL + 2000, WALL - 700, trust).measuredAtSeconds).toBeCloseTo(9.3, 9);
  });
});

describe('an account that a turn leaves open', () => {
  const steady = fixTime(11, WALL + 1000, WALL - 1500, fixTime(10, WALL, WALL - 2500, unknown).trust);

  it('is asked of the next turn too, and settled by the third at the latest', () => {
    // 2.5 s old, in truth 0.6: one slow hand was taken for lateness, and nothing was written any more (flight 162).
    const open = turned(steady.trust, 5.6);
    expect(ageJudged(open)).toBe(open);
    expect(ageJudged(turned(steady.trust, 5.6, 4.2)).clockAheadSeconds).toBeCloseTo(1.9, 9);
    expect(ageJudged(turned(steady.trust, 5.4, 5.4)).lateSeconds).toBeUndefined();
    expect(ageJudged(turned(steady.trust, 5.4, 5.4, 5.4)).lateSeconds).toBeCloseTo(2.5, 9);
  });

  it('is given up for the other where three turns speak against it', () => {
    const late = ageJudged(turned(steady.trust, 6.5));
    expect(late).toMatchObject({ lateSeconds: 2.5, otherSeconds: ASSUMED_LATENCY_SECONDS });
    expect(ageJudgedAgain(turned(late, 2.4, 2.5)).lateSeconds).toBeCloseTo(2.5, 9);
    const ahead = ageJudgedAgain(turned(late, 2.4, 2.5, 2.7));
    expect(ahead.lateSeconds).toBeUndefined();
    expect(ahead.clockAheadSeconds).toBeCloseTo(1.9, 9);
    expect(ageJudgedAgain(turned(ahead, 4.4, 4.2, 4.6))).toMatchObject({ clockAheadSeconds: ahead.clockAheadSeconds });
  });
});

describe('a stamp that is both', () => {
  it('is as late as the turn shows, where neither account alone fits', () => {
    // 12.4 s old by the stamps: a clock 7.7 s ahead, and positions 4.7 s late.
    const steady = fixTime(11, WALL + 1000, WALL - 11_400, fixTime(10, WALL, WALL - 12_400, unknown).trust);
    expect(ageJudged(turned(steady.trust, 8.5)).lateSeconds).toBeUndefined();
    const trust = ageJudged(turned(steady.trust, 8.3, 8.7));
    expect(trust.lateSeconds).toBeCloseTo(4.7, 9);
    expect(trust.clockAheadSeconds).toBeCloseTo(7.7, 9);
    expect(fixTime(12, WALL + 2000, WALL - 10_400, trust).measuredAtSeconds).toBeCloseTo(7.3, 9);
  });

  it('says nothing where it is younger than a receiver can be: a clock behind may hide positions that are late', () => {
    const steady = fixTime(11, WALL + 1000, WALL + 800, fixTime(10, WALL, WALL - 200, unknown).trust);
    expect(steady.source).toBe('arrival');
    expect(agedDoubtSeconds(steady.trust)).not.toBeNull();
    expect(ageJudged(turned(steady.trust, 7.2, 7.2)).lateSeconds).toBeCloseTo(3.4, 9);
  });
});
