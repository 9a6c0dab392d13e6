import { fc } from '../../property.ts';
import IGCParser from 'igc-parser';
import { describe, expect, it } from 'vitest';
import { igcAngleText, igcExtensionsFrom, igcFixFrom, igcHeightText } from '../../../src/core/tracks/igc-record.ts';
import { readIgc } from '../../../src/core/tracks/igc-read.ts';
import { writeIgc } from '../../../src/core/tracks/igc-write.ts';
import type { Track, TrackPoint, TracksRead } from '../../../src/core/tracks/track.ts';
import formats from '../../reference/formats.json' with { type: 'json' };
import { anyTrack } from './any-track.ts';

const HEAD = 'AXXX001\r\nHFDTE200626\r\n';

function read(text: string): TracksRead {
  const result = readIgc(text);
  if (!result.ok) throw new Error(result.reason);
  return result.value;
}

function refusal(input: unknown): string {
  const result = readIgc(input);
  return result.ok ? 'read' : result.reason;
}

function fix(time: string): string {
  return `B${time}5206343N00006198WA0058700558`;
}

describe('a B record', () => {
  it('reads the published lines', () => {
    // FAI IGC technical specification, appendix A (tests/reference/formats.json).
    const { example, decode, second_example: second } = formats.igc_b_record;
    const first = igcFixFrom(example, []);
    if (typeof first === 'string') throw new Error(first);
    expect(first.ofDayMilliseconds).toBe(((11 * 60 + 1) * 60 + 35) * 1000);
    expect(decode.time_utc).toBe('11:01:35');
    expect(first.latitudeDegrees).toBeCloseTo(decode.lat_deg, 6);
    expect(first.longitudeDegrees).toBeCloseTo(decode.lon_deg, 6);
    expect(first.pressureHeightMetres).toBe(decode.pressure_alt_m);
    expect(first.receiverHeightMetres).toBe(decode.gnss_alt_m);
    expect(igcFixFrom(second, [])).toMatchObject({ pressureHeightMetres: 593, receiverHeightMetres: 556, ofDayMilliseconds: ((11 * 60 + 1) * 60 + 45) * 1000 });
  });

  it('uses the digits that LAD, LOD and TDS append, wherever the I record puts them', () => {
    const extensions = igcExtensionsFrom('I043638FXA3939LAD4040LOD4143TDS');
    expect(extensions.map(({ code }) => code)).toEqual(['FXA', 'LAD', 'LOD', 'TDS']);
    const extended = igcFixFrom('B1101355206343N00006198WA005870055805079250', extensions);
    if (typeof extended === 'string') throw new Error(extended);
    expect(extended.latitudeDegrees).toBeCloseTo(52 + 6.3437 / 60, 9);
    expect(extended.longitudeDegrees).toBeCloseTo(-6.1989 / 60, 9);
    expect(extended.ofDayMilliseconds % 1000).toBe(250);
  });

  it('says why it cannot be read', () => {
    expect(igcFixFrom('B110135520634', [])).toBe('the fix (B record) is broken off');
    expect(igcFixFrom('B1101355206343X00006198WA0058700558', [])).toMatch(/not written/);
    expect(igcFixFrom('B2501355206343N00006198WA0058700558', [])).toMatch(/no time/);
    expect(igcFixFrom('B1101355260343N00006198WA0058700558', [])).toMatch(/59 minutes/);
    expect(igcFixFrom('B1101359106343N00006198WA0058700558', [])).toMatch(/off the earth/);
    expect(igcExtensionsFrom('I023638FXA')).toEqual([]);
  });

  it('writes heights and angles into their columns', () => {
    expect([0, -7, 12_345.6, 200_000, -20_000].map(igcHeightText)).toEqual(['00000', '-0007', '12346', '99999', '-9999']);
    expect(igcAngleText(-0.1033, 3)).toEqual({ base: '00006198', appended: '00' });
    expect(igcAngleText(51.999_999_999_9, 2)).toEqual({ base: '5200000', appended: '00' });
  });
});

describe('writing IGC', () => {
  it('is read by igc-parser as it was meant', () => {
    fc.assert(
      fc.property(anyTrack('sea', false), (track) => {
        const parsed = IGCParser.parse(writeIgc(track, 'Quillwind'));
        expect(parsed.errors).toEqual([]);
        expect(parsed.fixes).toHaveLength(track.points.length);
        parsed.fixes.forEach((parsedFix, index) => {
          const point = track.points[index]!;
          expect(parsedFix.latitude).toBeCloseTo(point.latitudeDegrees, 6);
          expect(parsedFix.longitude).toBeCloseTo(point.longitudeDegrees, 6);
          expect(parsedFix.valid).toBe(point.heightMetres !== null);
          // igc-parser takes a height of zero for none.
          if (point.heightMetres !== null && point.heightMetres !== 0) expect(parsedFix.gpsAltitude).toBe(Math.round(point.heightMetres));
          expect(parsedFix.timestamp % 86_400_000).toBe((Math.floor(point.timeMilliseconds / 1000) * 1000) % 86_400_000);
        });
      }),
      { numRuns: 100 },
    );
  });

  it.each(['sea', 'ellipsoid'] as const)('reads back as it was, above the %s: places within 2 cm, times to the millisecond, smoke, name', (heightsAbove) => {
    fc.assert(
      fc.property(anyTrack(heightsAbove, false), (track) => {
        const { tracks, warnings } = read(writeIgc(track, 'Quillwind'));
        expect(warnings).toEqual([]);
        expect(tracks).toHaveLength(1);
        const back = tracks[0]!;
        expect(back.name).toBe(track.name);
        if (track.points.some(({ heightMetres }) => (heightMetres ?? 0) !== 0)) expect(back.heightsAbove).toBe(heightsAbove);
        const apartFromPlace = ({ timeMilliseconds, heightMetres, smoke }: TrackPoint) => ({ timeMilliseconds, heightMetres, smoke });
        expect(back.points.map(apartFromPlace)).toEqual(track.points.map(apartFromPlace));
        back.points.forEach((point, index) => {
          expect(Math.abs(point.latitudeDegrees - track.points[index]!.latitudeDegrees)).toBeLessThan(1.6e-7);
          const eastDegrees = Math.abs(point.longitudeDegrees - track.points[index]!.longitudeDegrees);
          expect(Math.min(eastDegrees, 360 - eastDegrees)).toBeLessThan(1.6e-7);
        });
      }),
      { numRuns: 100 },
    );
  });

  it('keeps a flight by pressure, without a receiver', () => {
    const track: Track = {
      name: 'Lead',
      heightsAbove: 'pressure',
      points: [0, 1].map((second) => ({
        timeMilliseconds: Date.UTC(2026, 5, 20, 10, 0, second),
        latitudeDegrees: 46,
        longitudeDegrees: 8,
        heightMetres: 3000 + second,
        smoke: null,
      })),
      segmentStarts: [0],
    };
    expect(read(writeIgc(track, 'Quillwind')).tracks).toEqual([track]);
  });

  it('has lines of printable ASCII, at most 99 characters, as the specification wants', () => {
    const text = writeIgc(
      {
        name: 'Ünï * $ "2", \n',
        heightsAbove: 'sea',
        points: [{ timeMilliseconds: 0, latitudeDegrees: 1, longitudeDegrees: 2, heightMetres: 3, smoke: 'on' }],
        segmentStarts: [0],
      },
      'Quillwind',
    );
    expect(text.endsWith('\r\n')).toBe(true);
    for (const line of text.split('\r\n')) expect(line).toMatch(/^[\x20-\x7D]{0,99}$/);
    expect(() => writeIgc({ name: '', heightsAbove: 'sea', points: [], segmentStarts: [0] }, 'x')).toThrow(RangeError);
  });
});

describe('reading IGC', () => {
  it('passes midnight, within a second and after a second date record', () => {
    const text = `${HEAD}${['235958', '235959', '000000', '000001'].map(fix).join('\r\n')}\r\n`;
    expect(read(text).tracks[0]!.points.map(({ timeMilliseconds }) => new Date(timeMilliseconds).toISOString().slice(0, 19))).toEqual([
      '2026-06-20T23:59:58',
      '2026-06-20T23:59:59',
      '2026-06-21T00:00:00',
      '2026-06-21T00:00:01',
    ]);
    const dated = `${HEAD}${fix('235959')}\nHFDTE210626\n${fix('000000')}\n${fix('000001')}\n`;
    expect(new Date(read(dated).tracks[0]!.points[2]!.timeMilliseconds).toISOString()).toBe('2026-06-21T00:00:01.000Z');
  });

  it('passes midnight twice', () => {
    const minutes = Array.from({ length: 130 }, (_, index) => index * 25);
    const clock = (minute: number): string => `${String(Math.floor(minute / 60) % 24).padStart(2, '0')}${String(minute % 60).padStart(2, '0')}00`;
    const { points } = read(`${HEAD}${minutes.map((minute) => fix(clock(minute))).join('\n')}`).tracks[0]!;
    expect(points.map(({ timeMilliseconds }) => (timeMilliseconds - Date.UTC(2026, 5, 20)) / 60_000)).toEqual(minutes);
  });

  it('agrees with igc-parser on midnight', () => {
    const text = `${HEAD}${['235958', '235959', '000010', '000011'].map(fix).join('\r\n')}`;
    expect(read(text).tracks[0]!.points.map(({ timeMilliseconds }) => timeMilliseconds)).toEqual(IGCParser.parse(text).fixes.map(({ timestamp }) => timestamp));
  });

  it('tells two flights in one file apart, and two files put together', () => {
    const two = `${HEAD}${[fix('090000'), fix('090001'), fix('150000'), fix('150001')].join('\n')}`;
    expect(read(two).tracks.map(({ name }) => name)).toEqual(['Flight 1 (flight 1)', 'Flight 1 (flight 2)']);
    const joined = `${HEAD}HFGIDGLIDERID:Lead\n${fix('090000')}\n${fix('090001')}\nGABCDEF\n${HEAD}HFGIDGLIDERID:Two\n${fix('090000')}\n${fix('090001')}`;
    expect(read(joined).tracks.map(({ name, points }) => [name, points.length])).toEqual([
      ['Lead', 2],
      ['Two', 2],
    ]);
  });

  it('reads both forms of the date, and knows the centuries', () => {
    for (const date of ['HFDTE200626', 'HFDTEDATE:200626,01', 'HFDTEDATE: 200626', 'HODTE200626']) {
      expect(new Date(read(`AXXX001\n${date}\n${fix('100000')}\n${fix('100001')}`).tracks[0]!.points[0]!.timeMilliseconds).toISOString(), date).toBe(
        '2026-06-20T10:00:00.000Z',
      );
    }
    expect(read(`AXXX001\nHFDTE010101\n${fix('100000')}\n${fix('100001')}`).warnings).toEqual([
      "Flight 1: the recorder's clock says the year 2001, so it was not set. Times between points hold; the time of day does not.",
    ]);
  });

  it('leaves out a torn last line, and says so', () => {
    const text = `${HEAD}${[fix('100000'), fix('100001'), fix('100002').slice(0, 20)].join('\n')}`;
    expect(read(text).warnings).toEqual(['1 point that could not be read was left out. First, line 5: the fix (B record) is broken off.']);
  });

  it('answers what is not IGC, or not enough of it', () => {
    expect(refusal(7)).toBe('A track file is text; this is not.');
    expect(refusal('')).toBe('The file is empty.');
    expect(refusal('hello')).toBe('Line 1: an IGC file begins with an A record naming the recorder; this begins otherwise.');
    expect(refusal(`AXXX001\n${fix('100000')}`)).toBe("Line 2: a fix comes before the flight's date (HFDTE), so its day is not known.");
    expect(refusal(`${HEAD}${fix('100000')}`)).toMatch(/^The file holds no track of at least two/);
    expect(refusal(HEAD)).toBe('The file holds no track points.');
    expect(refusal(`${HEAD}${Array.from({ length: 40 }, () => 'B1').join('\n')}`)).toMatch(/^40 of 40 points cannot be read\. First, line 3/);
    expect(refusal('A'.padEnd(100_000_000, ' '))).toBe('The file is 100 MB; more than 48 MB cannot be read here. Split it by flight.');
  });

  it('takes the pressure height where the receiver gave none at all', () => {
    const line = 'B1000005206343N00006198WV0058700000';
    expect(read(`${HEAD}${line}\n${line.replace('B100000', 'B100001')}`).tracks[0]).toMatchObject({
      heightsAbove: 'pressure',
      points: [{ heightMetres: 587 }, { heightMetres: 587 }],
    });
  });

  it('never throws, whatever a mutation makes of a file', () => {
    const valid = `${HEAD}I013637TDS\n${[fix('235958'), fix('235959'), fix('000001')].map((line) => `${line}50`).join('\n')}\nLXXXSMOKE 2026-06-20T23:59:59Z ON\n`;
    fc.assert(
      fc.property(fc.nat(valid.length), fc.nat(20), fc.string({ unit: 'binary', maxLength: 12 }), (at, dropped, inserted) => {
        const result = readIgc(valid.slice(0, at) + inserted + valid.slice(at + dropped));
        if (result.ok)
          for (const track of result.value.tracks)
            for (const point of track.points) expect(Number.isFinite(point.timeMilliseconds + point.latitudeDegrees + point.longitudeDegrees)).toBe(true);
      }),
      { numRuns: 1000 },
    );
  });
});
