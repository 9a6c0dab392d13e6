import { fc } from '../../property.ts';
import { describe, expect, test } from 'vitest';
import { decodeWindGroup } from '../../../src/core/job/winds-aloft-group.ts';
import { parseWindsAloft, type WindsAloftBulletin } from '../../../src/core/job/winds-aloft.ts';
import winds from '../../reference/winds_aloft.json' with { type: 'json' };

function bulletinOf(text: string): WindsAloftBulletin {
  const found = parseWindsAloft(text);
  if (!found.ok) throw new Error(found.reason);
  return found.bulletin;
}

function reasonOf(text: string): string {
  const found = parseWindsAloft(text);
  if (found.ok) throw new Error('parsed');
  return found.reason;
}

const HEADING = 'DATA BASED ON 010000Z\nVALID 010600Z FOR USE 0500-0900Z. TEMPS NEG ABV 24000';
const HEIGHTS = 'FT  3000    6000    9000   12000   18000   24000  30000  34000  39000';
const COLUMNS = winds.column_bulletin_with_blanks;

describe('groups (FAA AC 00-45H, 5.13.1)', () => {
  test.each(winds.groups)('$code at $alt_ft ft', (row) => {
    const found = decodeWindGroup(row.code, row.alt_ft > 24_000);
    expect(found).toEqual({
      ok: true,
      wind: {
        fromDegreesTrue: row.light_variable ? null : row.dir,
        speedKnots: row.light_variable ? 0 : row.kt,
        orMore: row.or_more ?? false,
        temperatureCelsius: row.temp,
      },
    });
  });

  test('every group was there', () => expect(winds.groups).toHaveLength(15));

  test.each([
    ['0009+01', false, /00 for a direction/],
    ['3709', false, /37 for a direction/],
    ['5009', false, /50 for a direction/],
    ['8709', false, /87 for a direction/],
    ['9905', false, /9900/],
    ['170906', false, /sign/],
    ['1709+06', true, /below zero/],
    ['1709+', false, /not a group/],
    ['17O9', false, /not a group/],
    ['', false, /not a group/],
  ])('refuses %s', (code, unsigned, reason) => {
    const found = decodeWindGroup(code, unsigned);
    expect(found).toEqual({ ok: false, reason: expect.stringMatching(reason) });
  });
});

describe('the published bulletin (table 5-18)', () => {
  const bulletin = bulletinOf(winds.bulletin_published);

  test('reads its heading', () => {
    expect(bulletin.basedOn).toEqual({ dayOfMonth: 1, minuteOfDay: 0 });
    expect(bulletin.valid).toEqual({ dayOfMonth: 1, minuteOfDay: 360 });
    expect(bulletin.use).toEqual({ fromMinuteOfDay: 300, toMinuteOfDay: 540 });
    expect(bulletin.unsignedAboveFeet).toBe(24_000);
  });

  test('reads MKC as the table decodes it', () => {
    const [station] = bulletin.stations;
    expect(station?.station).toBe('MKC');
    expect(station?.missingFeet).toEqual([]);
    const expected = winds.groups.slice(0, 9);
    expect(station?.rows.map((row) => row.altitudeFeet)).toEqual(expected.map((row) => row.alt_ft));
    expect(station?.rows.map((row) => row.fromDegreesTrue)).toEqual(expected.map((row) => row.dir ?? null));
    expect(station?.rows.map((row) => row.temperatureCelsius)).toEqual(expected.map((row) => row.temp));
    expect(station?.rows.at(-1)?.speedKnots).toBe(102);
  });
});

describe('blanks, by column', () => {
  const bulletin = bulletinOf(COLUMNS.text);
  const row = (station: string, feet: number) => bulletin.stations.find((each) => each.station === station)?.rows.find((each) => each.altitudeFeet === feet);

  test.each(Object.entries(COLUMNS.expect))('%s', (key, [direction, knots, celsius]) => {
    const [station = '', feet] = key.split('_');
    const found = row(station, Number(feet));
    expect([found?.fromDegreesTrue, found?.speedKnots, found?.temperatureCelsius]).toEqual([direction, knots, celsius]);
  });

  test('says which heights are blank', () => {
    expect(bulletin.stations.map(({ station, missingFeet }) => [station, missingFeet])).toEqual([
      ['ABI', [3_000]],
      ['ABQ', [3_000, 6_000]],
      ['ABR', []],
    ]);
  });

  test('a wind without temperature stands at the left of its columns', () => {
    const found = bulletinOf(`${HEADING}\n${HEIGHTS}\nAMA      2117    2420+08 2525-01 2640-15 2650-28 265443 266551 266759`);
    expect(found.stations[0]?.rows.slice(0, 2)).toEqual([
      { altitudeFeet: 6_000, fromDegreesTrue: 210, speedKnots: 17, orMore: false, temperatureCelsius: null },
      { altitudeFeet: 9_000, fromDegreesTrue: 240, speedKnots: 20, orMore: false, temperatureCelsius: 8 },
    ]);
  });

  test('every station survives lower case, carriage returns, indentation, web minus signs and an end mark', () => {
    const text = COLUMNS.text
      .split('\n')
      .map((line) => `   ${line.toLowerCase().replaceAll('-', '\u2212')}`)
      .join('\r\n');
    expect(bulletinOf(`000\r\nFBUS31 KWNO 031959\r\nFD1US1\r\n${text}\r\n\r\n$$\r\nNNNN\r\n`)).toEqual(bulletin);
  });
});

describe('what a person can act on', () => {
  test('collapsed spacing with a blank is refused, naming line and column', () => {
    const found = parseWindsAloft(`${HEADING}\n${HEIGHTS}\nABI 0517+06 3209+02 3221-05 2941-18 2953-31 295947 288253 770853`);
    expect(found).toMatchObject({ ok: false, lineNumber: 4, columnNumber: 5 });
    expect(!found.ok && found.reason).toMatch(/^line 4, column 5: .*0517\+06.*8 groups for 9 heights.*spacing kept/);
  });

  test('collapsed spacing with every group is read by count', () => {
    const found = bulletinOf(`FT 3000 6000 9000\nABR\t3214  3431-04 3540-09`);
    expect(found.stations[0]?.rows.map((row) => row.speedKnots)).toEqual([14, 31, 40]);
    expect(found.valid).toBeNull();
  });

  test.each([
    [`${HEADING}\n${HEIGHTS}\nMKC 9900 1709+06 2018+00 21x0-06 2242-18 2361-30 247242 258848 750252`, /^line 4, column 26: MKC at 12000 ft: "21X0-06"/],
    [`${HEADING}\n${HEIGHTS}\nMKC 9900 1709+06 2018+00 2130-06 2242-18 2361-30 247242 258848 550252`, null],
    [`${HEADING}\nMKC 9900 1709+06`, /no line of heights/],
    [`${HEADING}\n${HEIGHTS}\n`, /no station/],
    [`${HEADING}\n${HEIGHTS}\n9900 1709+06`, /^line 4, column 1: "9900" is not a station/],
    [`${HEADING}\nFT 6000 3000`, /^line 3, column 9: "3000" is not a height above 6000/],
    [`${HEADING}\nFT`, /empty/],
    [`VALID 321200Z\n${HEIGHTS}`, /^line 1, column 7: "321200Z"/],
    [`DATA BASED ON NOON\n${HEIGHTS}`, /^line 1, column 15: "NOON"/],
    [`${HEADING}\n${HEIGHTS}\n${HEADING}`, /^line 4, column 1: a second bulletin/],
    [`${HEIGHTS}\n${HEIGHTS}`, /second line of heights/],
    [`FT 3000 6000\nMKC 9900 1709+06 2018+00`, /3 groups for 2 heights/],
    ['x'.repeat(200_001), /200001 characters/],
    ['', /no line of heights/],
  ])('case %#', (text, reason) => {
    if (reason === null) expect(bulletinOf(text).stations[0]?.rows.at(-1)).toMatchObject({ fromDegreesTrue: 50, speedKnots: 102 });
    else expect(reasonOf(text)).toMatch(reason);
  });

  test('two groups under one height', () => {
    expect(reasonOf('FT  3000    6000    9000\nMKC      12  3214')).toMatch(/not a group|two groups/);
    expect(reasonOf('FT  3000         6000    9000\nMKC      1234 3214')).toMatch(/two groups under 6000/);
  });

  test('what is not text', () => {
    expect(parseWindsAloft(null)).toMatchObject({ ok: false });
    expect(parseWindsAloft({ text: 1 })).toMatchObject({ ok: false });
  });

  test('never throws, whatever is pasted', () => {
    const piece = fc.constantFrom('FT', '3000', '6000', '9900', '1709+06', ' ', '\n', 'MKC', 'VALID', '010600Z', '$$', '\t', 'FOR USE 0500-0900Z');
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ unit: 'binary', maxLength: 200 }),
          fc.array(piece).map((all) => all.join(' ')),
        ),
        (text) => {
          expect(typeof parseWindsAloft(text).ok).toBe('boolean');
        },
      ),
    );
  });

  test('random winds, written in columns with random blanks, come back', () => {
    const group = fc.option(
      fc.record({ direction: fc.integer({ min: 1, max: 36 }), knots: fc.integer({ min: 0, max: 198 }), celsius: fc.integer({ min: -99, max: 60 }) }),
    );
    const feet = [3_000, 6_000, 9_000, 12_000, 18_000, 24_000, 30_000, 34_000, 39_000];
    const ends = [8, 16, 24, 32, 40, 48, 55, 62, 69];
    fc.assert(
      fc.property(fc.array(group, { minLength: 9, maxLength: 9 }), (groups) => {
        let line = 'ABC';
        const expected: unknown[] = [];
        for (const [index, each] of groups.entries()) {
          const level = feet[index] ?? 0;
          if (each === null) continue;
          const cold = level > 24_000 ? -Math.abs(each.celsius) : each.celsius;
          const celsius = level === 3_000 ? null : cold + 0;
          const two = (value: number) => String(Math.abs(value)).padStart(2, '0');
          const big = each.knots >= 100;
          const head = two(each.direction + (big ? 50 : 0)) + two(each.knots - (big ? 100 : 0));
          const tail = celsius === null ? '' : `${level > 24_000 ? '' : celsius < 0 ? '-' : '+'}${two(celsius)}`;
          line = `${line}${' '.repeat((ends[index] ?? 0) - line.length - head.length - tail.length)}${head}${tail}`;
          expected.push([level, each.direction * 10, each.knots, celsius]);
        }
        const found = bulletinOf(`${HEADING}\n${HEIGHTS}\n${line}`).stations[0];
        expect(
          found?.rows.map((row) => [
            row.altitudeFeet,
            row.fromDegreesTrue,
            row.speedKnots,
            row.temperatureCelsius === null ? null : row.temperatureCelsius + 0,
          ]),
        ).toEqual(expected);
      }),
    );
  });
});
