import { fc } from '../../property.ts';
import { describe, expect, it } from 'vitest';
import type { JobWind } from '../../../src/core/job/job.ts';
import { readWinds } from '../../../src/core/winds/read-winds.ts';
import type { WindReading } from '../../../src/core/winds/wind-reading.ts';

const NEAR = Date.UTC(2002, 11, 15);
const read = (text: string, aerodromeFeet = 0, nearMilliseconds = NEAR): WindReading => {
  const result = readWinds(text, { nearMilliseconds, aerodromeFeet });
  if (!result.ok) throw new Error(result.reason);
  return result.reading;
};
const row = (altitudeFeet: number, fromDegreesTrue: number | null, speedKnots: number, temperatureCelsius: number | null = null): JobWind => ({
  altitudeFeet,
  fromDegreesTrue,
  speedKnots,
  temperatureCelsius,
});

describe('plain rows', () => {
  it.each([
    ['3000 250/12 +8', row(3000, 250, 12, 8)],
    ['3,000 ft 250\u00b0/12 kt +8 \u00b0C', row(3000, 250, 12, 8)],
    ['FL100 270/25KT -3', row(10_000, 270, 25, -3)],
    ['FL050 240/25 MS04', row(5000, 240, 25, -4)],
    ['1500 m 180 / 20 km/h', row(4921, 180, 10.8)],
    ['3000 m; 090; 37,04 km/h', row(9843, 90, 20)],
    ['9000: 360/15', row(9000, 0, 15)],
    ['6000 VRB 03', row(6000, null, 0)],
    ['12000 light', row(12_000, null, 0)],
    ['2000 m 090 at 5 m/s \u22122', row(6562, 90, 9.7, -2)],
  ])('reads %s', (text, wind) => {
    expect(read(text)).toMatchObject({ kind: 'plain rows', hours: [{ winds: [wind] }], left: [] });
  });

  it('marks each line it does not understand, and takes no direction or speed that cannot be', () => {
    const { hours, left } = read('Winds for tomorrow\n3000 250/12\n6000 400/20\n9000 270/400\n12000 VRB 25\nsee you');
    expect(hours[0]?.winds).toEqual([row(3000, 250, 12)]);
    expect(left.map(({ lineNumber }) => lineNumber)).toEqual([1, 3, 4, 5, 6]);
  });
});

describe('tables', () => {
  it('are read in any order of columns, by their head, with its units', () => {
    expect(read('Temp (C),Speed (km/h),Height (m),Direction\n-2,36,3000,270\n5.5,18,1000,250').hours[0]?.winds).toEqual([
      row(9843, 270, 19.4, -2),
      row(3281, 250, 9.7, 5.5),
    ]);
    expect(read('wd\tws_kt\talt_ft\n250\t12\t3000').hours[0]?.winds).toEqual([row(3000, 250, 12)]);
  });

  it('take a decimal comma where semicolons part the cells', () => {
    expect(read('Height (m);Direction;Speed (m/s);Temp (C)\n1500;180;5,5;-1,5').hours[0]?.winds).toEqual([row(4921, 180, 10.7, -1.5)]);
  });

  it('become several hours with a column of times', () => {
    const { hours } = read(
      'time,height (ft),dir,speed (kt)\n2027-06-19T12:00Z,3000,250,12\n2027-06-19T12:00Z,6000,260,18\n2027-06-19T15:00Z,3000,270,9\nsoon,3000,1,1',
    );
    expect(hours.map(({ validMilliseconds, winds }) => [new Date(validMilliseconds!).toISOString(), winds.length])).toEqual([
      ['2027-06-19T12:00:00.000Z', 2],
      ['2027-06-19T15:00:00.000Z', 1],
    ]);
  });

  it('are refused where a unit is not known, with the unit', () => {
    expect(readWinds('height (cubits),dir,speed\n3000,250,12', { nearMilliseconds: NEAR, aerodromeFeet: 0 })).toMatchObject({
      ok: false,
      reason: expect.stringContaining('cubits'),
    });
  });
});

it('reads spot winds for several positions', () => {
  const { kind, hours } = read('5230N 00230W\n24 310 65 -34\n10 270 30 MS02\n05 250 20 PS06\n02 VRB 03 PS11\n5000N 00500W\n10 280 35 -01');
  expect(kind).toBe('spot winds');
  expect(hours.map(({ place, winds }) => [place, winds.length])).toEqual([
    ['5230N 00230W', 4],
    ['5000N 00500W', 1],
  ]);
  expect(hours[0]?.winds).toEqual([row(24_000, 310, 65, -34), row(10_000, 270, 30, -2), row(5000, 250, 20, 6), row(2000, null, 0, 11)]);
});

describe('a sounding', () => {
  /** Decoded beside it by the British Antarctic Survey ("Radiosonde decoding", last changed 6 December 2002): winds there in m/s. */
  const TEMP = `TTAA  66001 68994 99011 10427 34019
00117 09632 34019 92767 10429 01022 85465 06437 35034
70049 03886 35035 50568 15769 34536 40733 26763 34538
30933 42958 32544 25054 52158 31550 20194 62958 32549
15373 59799 31550 10625 61399 31546 88999 77999=`;
  const DECODED = [
    [117, 9.6, 340, 10],
    [767, 10.4, 10, 11],
    [1465, 6.4, 350, 18],
    [3049, 3.8, 350, 18],
    [5680, -15.7, 345, 19],
    [7330, -26.7, 345, 20],
    [9330, -42.9, 325, 23],
    [10_540, -52.1, 315, 26],
    [11_940, -62.9, 325, 25],
    [13_730, -59.7, 315, 26],
    [16_250, -61.3, 315, 24],
  ] as const;

  it('is decoded as its publisher decoded it: heights, temperatures, winds', () => {
    const { hours, kind } = read(TEMP);
    expect(kind).toBe('sounding');
    expect(new Date(hours[0]!.validMilliseconds!).toISOString()).toBe('2002-12-16T00:00:00.000Z');
    expect(hours[0]!.place).toBe('68994');
    expect(hours[0]!.winds).toHaveLength(DECODED.length);
    for (const [index, [metres, celsius, degrees, metresPerSecond]] of DECODED.entries()) {
      const wind = hours[0]!.winds[index]!;
      expect(wind.altitudeFeet).toBe(Math.round(metres / 0.3048));
      expect(wind.temperatureCelsius).toBe(celsius);
      expect(wind.fromDegreesTrue).toBe(degrees);
      // They round knots to whole metres a second, 34 kt (17.49 m/s) up to 18.
      expect(Math.abs(wind.speedKnots * (1852 / 3600) - metresPerSecond)).toBeLessThanOrEqual(0.51);
    }
  });

  it('puts the winds of TTBB between the standard levels', () => {
    const { hours } = read(`${TEMP} TTBB 66008 68994 00011 10427 11850 06437 21212 00011 34019 11900 01030 22600 35040`);
    const heights = hours[0]!.winds.map(({ altitudeFeet }) => altitudeFeet * 0.3048);
    const between = heights.find((metres) => metres > 800 && metres < 1400)!;
    // 900 hPa lies between 925 at 767 m and 850 at 1,465 m; the barometric formula says about 1,000 m.
    expect(between).toBeGreaterThan(980);
    expect(between).toBeLessThan(1010);
  });

  it('needs TTAA, and says so', () => {
    expect(readWinds('TTBB 66008 68994 00011 10427', { nearMilliseconds: NEAR, aerodromeFeet: 0 })).toMatchObject({
      ok: false,
      reason: expect.stringContaining('TTAA'),
    });
  });
});

describe('model levels', () => {
  it('are read from columns by hour with their units', () => {
    const { hours } = read(
      JSON.stringify({
        hourly_units: { wind_speed_850hPa: 'km/h', geopotential_height_850hPa: 'm' },
        hourly: {
          time: ['2027-06-19T12:00', '2027-06-19T13:00'],
          wind_speed_850hPa: [36, 18],
          wind_direction_850hPa: [250, 260],
          geopotential_height_850hPa: [1500, 1510],
          temperature_850hPa: [7, null],
        },
      }),
    );
    expect(hours.map(({ winds }) => winds[0])).toEqual([row(4921, 250, 19.4, 7), row(4954, 260, 9.7)]);
    expect(new Date(hours[1]!.validMilliseconds!).toISOString()).toBe('2027-06-19T13:00:00.000Z');
  });

  it('are read from lists of levels, and refused where the unit of speed is not said', () => {
    const levels = [{ pressureHpa: 700, geopotentialHeightMetres: 3000, windDirectionDegrees: 300, windSpeedKnots: 25, temperatureCelsius: 2 }];
    expect(read(JSON.stringify({ time: '2027-06-19T12:00Z', levels })).hours[0]?.winds).toEqual([row(9843, 300, 25, 2)]);
    const bare = [{ geopotentialHeight: 3000, windDirection: 300, windSpeed: 25 }];
    expect(readWinds(JSON.stringify({ levels: bare }), { nearMilliseconds: NEAR, aerodromeFeet: 0 })).toMatchObject({
      ok: false,
      reason: expect.stringContaining('unit'),
    });
    expect(read(JSON.stringify({ levels: bare, speedUnit: 'm/s' })).hours[0]?.winds[0]?.speedKnots).toBe(48.6);
  });
});

describe('METAR and TAF', () => {
  it('give visibility and clouds above the sea; examples A3-1 and A5-1 of ICAO Annex 3, from memory', () => {
    const metar = read('METAR YUDO 221630Z 24004MPS 0600 R12/1000U DZ FG SCT010 OVC020 17/16 Q1018 BECMG TL1700 0800 FG BECMG AT1800 9999 NSW', 500);
    expect(metar).toMatchObject({
      kind: 'METAR',
      hours: [
        {
          place: 'YUDO',
          conditions: {
            clouds: [
              { baseFeet: 1500, oktas: 4 },
              { baseFeet: 2500, oktas: 8 },
            ],
          },
        },
      ],
    });
    expect(metar.hours[0]?.conditions.visibilityStatuteMiles).toBeCloseTo(600 / 1609.344, 9);
    expect(metar.left).toHaveLength(2);
    const taf = read(
      'TAF YUDO 151800Z 1600/1618 13005MPS 9000 BKN020 BECMG 1606/1608 SCT015CB BKN020 TEMPO 1608/1612 17006G12MPS 1000 TSRA SCT010CB BKN020 FM161230 15004MPS 9999 BKN020',
      0,
    );
    expect(taf.kind).toBe('TAF');
    expect(taf.hours.map(({ validMilliseconds, conditions }) => [new Date(validMilliseconds!).toISOString().slice(8, 16), conditions.clouds?.length])).toEqual([
      ['16T00:00', 1],
      ['16T06:00', 2],
      ['16T12:30', 1],
    ]);
    expect(taf.left[0]?.text).toMatch(/^TEMPO 1608\/1612/);
  });

  it('read statute miles and fractions, and call no sky clear that nobody called so', () => {
    expect(read('KODN 191553Z 27008KT 1 1/2SM BKN012 18/12 A2992').hours[0]?.conditions).toEqual({
      visibilityStatuteMiles: 1.5,
      clouds: [{ baseFeet: 1200, topFeet: null, oktas: 7 }],
      // 29.92 inches of mercury are 1013.2 hPa (ICAO Doc 7488's sea level is 1013.25).
      altimeterHectopascals: 1013.2,
    });
    expect(read('METAR YUDO 191530Z 24004MPS 0800 R12/1000U FG VV001 Q0996').hours[0]?.conditions.altimeterHectopascals).toBe(996);
    expect(read('KODN 191553Z 27008KT P6SM SKC').hours[0]?.conditions.clouds).toEqual([]);
    // WMO-No. 306, FM 15: 9999 is 10 km or more; P6SM is more than six miles (AC 00-45H). How far is not said.
    for (const group of ['CAVOK', '9999 NCD', 'P6SM SKC', '10SM CLR']) {
      const open = read(`KODN 191553Z 27008KT ${group}`);
      expect(open.hours[0]?.conditions.visibilityStatuteMiles).toBeNull();
      expect(open.notes.join(' ')).toContain('at least');
    }
    for (const group of ['9000 SKC', '5SM SKC']) {
      const told = read(`KODN 191553Z 27008KT ${group}`);
      expect(told.hours[0]?.conditions.visibilityStatuteMiles).toBeGreaterThan(4);
      expect(told.notes.join(' ')).not.toContain('at least');
    }
    // No cloud under 5,000 ft, or none that an automatic eye saw: the layer is higher.
    for (const group of ['CAVOK', '9999 NCD', '9999 NSC', '10SM CLR']) expect(read(`KODN 191553Z 27008KT ${group}`).hours[0]?.conditions.clouds).toBeNull();
  });
});

it('knows the bulletin, and says of anything else in plain words why it was not taken', () => {
  expect(read('DATA BASED ON 190600Z\nVALID 191800Z FOR USE 1400-2100Z. TEMPS NEG ABV 24000\nFT  3000    6000\nODN      2715+10').kind).toBe('bulletin');
  // Found by fuzzing: a day that no month has, and nothing parted by nothing.
  expect(read('TAF YUDO 151800Z 1600/1618 9000 BKN020 BECMG 9606/1608 SCT015').left[0]?.reason).toBe('no day and hour');
  expect(read('KODN 191553Z 27008KT 1/0SM BKN012').hours[0]?.conditions.visibilityStatuteMiles).toBeNull();
  for (const text of ['', 'good morning', '{"a":1}', '[[[[', 'TAF', 'TTAA', '1 2 3', '\u0000\u0001'.repeat(50)]) {
    const result = readWinds(text, { nearMilliseconds: NEAR, aerodromeFeet: 0 });
    expect(result.ok).toBe(false);
    if (!result.ok) expect(result.reason).toMatch(/^[a-z\u201cA-Z].{8,}/);
  }
});

it('never throws, and never gives a wind that a job file would not take', () => {
  const word = fc.constantFrom(
    '3000',
    '250/12',
    '+8',
    'FL100',
    'TTAA',
    '66001',
    '85465',
    'FT',
    'METAR',
    'KODN',
    '191553Z',
    'OVC020',
    '{',
    '}',
    '"levels"',
    'height',
    'dir',
    'speed',
    ';',
    ',',
    '\n',
    'VRB',
    '99',
    '-',
    '1e9',
    '9999',
  );
  fc.assert(
    fc.property(fc.array(fc.oneof(word, fc.string({ maxLength: 6 })), { maxLength: 40 }), (words) => {
      const result = readWinds(words.join(' '), { nearMilliseconds: NEAR, aerodromeFeet: 100 });
      if (!result.ok) {
        expect(result.reason.length).toBeGreaterThan(8);
        return;
      }
      for (const { winds } of result.reading.hours) {
        for (const { altitudeFeet, fromDegreesTrue, speedKnots } of winds) {
          expect(altitudeFeet).toBeGreaterThanOrEqual(-1500);
          expect(altitudeFeet).toBeLessThanOrEqual(60_000);
          expect(speedKnots).toBeLessThanOrEqual(250);
          if (fromDegreesTrue !== null) expect(fromDegreesTrue).toBeLessThan(360);
        }
      }
    }),
    { numRuns: 3000 },
  );
});
