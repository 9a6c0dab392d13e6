import { describe, expect, test } from 'vitest';
import { bulletinMilliseconds, bulletinUse } from '../../../src/core/job/winds-aloft-times.ts';
import { parseWindsAloft } from '../../../src/core/job/winds-aloft.ts';
import winds from '../../reference/winds_aloft.json' with { type: 'json' };

const HOUR = 3_600_000;

describe('use periods (FAA AC 00-45H, table 5-19)', () => {
  const rows = winds.valid_use_table.rows.flatMap((row) => {
    const run = row[0] ?? '';
    return [2, 4, 6].map((column, index) => ({ run, valid: row[column] ?? '', use: row[column + 1] ?? '', leadHours: [6, 12, 24][index] ?? 0 }));
  });

  test('every period of the table was there', () => expect(rows).toHaveLength(12));

  test.each(rows)('run $run, valid $valid, for use $use', ({ run, valid, use, leadHours }) => {
    const runMilliseconds = Date.UTC(2026, 6, 14, Number(run.slice(0, 2)));
    const validDay = new Date(runMilliseconds + leadHours * HOUR).getUTCDate();
    const text = `DATA BASED ON 14${run}\nVALID ${validDay}${valid} FOR USE ${use}. TEMPS NEG ABV 24000\nFT 3000\nABC 1234`;
    const found = parseWindsAloft(text);
    if (!found.ok || found.bulletin.valid === null) throw new Error('no bulletin');
    const near = Date.UTC(2026, 6, 15, 3);
    expect(bulletinMilliseconds(found.bulletin.valid, near)).toBe(runMilliseconds + leadHours * HOUR);
    const period = bulletinUse(found.bulletin, near);
    const early = leadHours === 6 ? 4 : leadHours === 12 ? 3 : 6;
    const late = leadHours === 24 ? 6 : leadHours === 12 ? 6 : 3;
    expect(period).toEqual({
      fromMilliseconds: runMilliseconds + (leadHours - early) * HOUR,
      toMilliseconds: runMilliseconds + (leadHours + late) * HOUR,
    });
  });
});

describe('days of the month', () => {
  test('reach over the end of a month, both ways', () => {
    const last = { dayOfMonth: 31, minuteOfDay: 1_380 };
    expect(bulletinMilliseconds(last, Date.UTC(2026, 7, 1, 2))).toBe(Date.UTC(2026, 6, 31, 23));
    expect(bulletinMilliseconds({ dayOfMonth: 1, minuteOfDay: 0 }, Date.UTC(2026, 6, 31, 20))).toBe(Date.UTC(2026, 7, 1));
  });

  test('day 31 near 1 March is 31 January', () => {
    expect(bulletinMilliseconds({ dayOfMonth: 31, minuteOfDay: 0 }, Date.UTC(2026, 2, 1))).toBe(Date.UTC(2026, 0, 31));
  });

  test('without a heading there is no period', () => {
    const found = parseWindsAloft('FT 3000\nABC 1234');
    expect(found.ok && bulletinUse(found.bulletin, 0)).toBeNull();
    expect(() => bulletinMilliseconds({ dayOfMonth: 1, minuteOfDay: 0 }, NaN)).toThrow(RangeError);
  });
});
