import { describe, expect, it } from 'vitest';
import { createClockWatch } from '../../src/sensors/clock-watch.ts';

const START = 1_780_000_000_000;

describe('createClockWatch', () => {
  it('compares once a second and is content with clocks that run alike', () => {
    const watch = createClockWatch();
    const reports = Array.from({ length: 41 }, (_, tick) => watch({ atSeconds: tick / 10, wallMilliseconds: START + tick * 100 }));
    expect(reports.filter((report) => report !== null)).toEqual([{ kind: 'together' }, { kind: 'together' }, { kind: 'together' }, { kind: 'together' }]);
  });

  it('tells ten minutes of sleep at the first tick after it', () => {
    const watch = createClockWatch();
    watch({ atSeconds: 5, wallMilliseconds: START });
    expect(watch({ atSeconds: 5.1, wallMilliseconds: START + 600_100 })).toEqual({ kind: 'apart', gainedSeconds: 600 });
    expect(watch({ atSeconds: 6.1, wallMilliseconds: START + 601_100 })).toEqual({ kind: 'together' });
  });

  it('tells a wall clock set back', () => {
    const watch = createClockWatch();
    watch({ atSeconds: 0, wallMilliseconds: START });
    expect(watch({ atSeconds: 1, wallMilliseconds: START - 21_599_000 })).toEqual({ kind: 'apart', gainedSeconds: -21_600 });
  });

  it('lets a slow second pass', () => {
    const watch = createClockWatch();
    watch({ atSeconds: 0, wallMilliseconds: START });
    expect(watch({ atSeconds: 3.5, wallMilliseconds: START + 3_900 })).toEqual({ kind: 'together' });
  });
});
