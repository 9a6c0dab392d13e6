import { describe, expect, it } from 'vitest';
import { ASSUMED_LATENCY_SECONDS, fixTime, type StampTrust } from '../../../src/core/tracking/fix-time.ts';

const WALL = Date.UTC(2027, 5, 19, 17, 0, 0);
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
