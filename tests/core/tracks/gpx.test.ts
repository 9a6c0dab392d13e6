import { fc } from '../../property.ts';
import { describe, expect, it } from 'vitest';
import { readGpx } from '../../../src/core/tracks/gpx-read.ts';
import { writeGpx } from '../../../src/core/tracks/gpx-write.ts';
import type { Track } from '../../../src/core/tracks/track.ts';
import formats from '../../reference/formats.json' with { type: 'json' };
import { anyTrack } from './any-track.ts';
import { schemaBreaches, schemaRules } from '../text/schema-check.ts';
import { processorMilliseconds } from '../../processor-time.ts';

const rules = schemaRules('gpx-1.1');

function gpx(points: string, name = 'Lead'): string {
  return `<?xml version="1.0" encoding="UTF-8"?>\n<gpx version="1.1" creator="a recorder" xmlns="http://www.topografix.com/GPX/1/1">\n<trk><name>${name}</name><trkseg>\n${points}\n</trkseg></trk>\n</gpx>`;
}

function point(time: string, latitude = '46.5', longitude = '8.25', inside = ''): string {
  return `<trkpt lat="${latitude}" lon="${longitude}"><ele>3048</ele><time>${time}</time>${inside}</trkpt>`;
}

function refusal(input: unknown): string {
  const result = readGpx(input);
  return result.ok ? `read: ${JSON.stringify(result.value.warnings)}` : result.reason;
}

function read(text: string): { readonly tracks: readonly Track[]; readonly warnings: readonly string[] } {
  const result = readGpx(text);
  if (!result.ok) throw new Error(result.reason);
  return result.value;
}

describe('writing GPX', () => {
  it('is valid against the rules of the published schema, and reads back as it was', () => {
    fc.assert(
      fc.property(fc.array(anyTrack('sea', true), { minLength: 1, maxLength: 3 }), (tracks) => {
        const text = writeGpx(tracks, 'Quillwind "test" & more');
        expect(schemaBreaches(text, rules)).toEqual([]);
        const result = read(text);
        expect(result.warnings).toEqual([]);
        expect(result.tracks).toEqual(tracks);
      }),
      { numRuns: 80 },
    );
  });

  it('has the element order of the published list', () => {
    // GPX 1.1, wptType (tests/reference/formats.json): the rules' table and the published list agree.
    expect(rules.types['trkpt']!.children!.map((particle) => particle.replace(/[?*]$/, ''))).toEqual(formats.gpx_1_1.wpt_rtept_trkpt_order);
  });

  it('keeps the checker honest: a wrong order, an exponent, a longitude of 180 and a foreign element are breaches', () => {
    const valid = gpx(point('2026-06-20T10:00:00Z'));
    expect(schemaBreaches(valid, rules)).toEqual([]);
    expect(
      schemaBreaches(valid.replace('<ele>3048</ele><time>2026-06-20T10:00:00Z</time>', '<time>2026-06-20T10:00:00Z</time><ele>3048</ele>'), rules),
    ).not.toEqual([]);
    expect(schemaBreaches(valid.replace('46.5', '1e-7'), rules)).not.toEqual([]);
    expect(schemaBreaches(valid.replace('8.25', '180'), rules)).not.toEqual([]);
    expect(schemaBreaches(valid.replace('<ele>3048</ele>', '<speed>50</speed>'), rules)).not.toEqual([]);
    expect(schemaBreaches(valid.replace(' creator="a recorder"', ''), rules)).not.toEqual([]);
    expect(schemaBreaches(valid.replace('GPX/1/1', 'GPX/1/0'), rules)).not.toEqual([]);
  });

  it('never writes an exponent, a longitude of 180, or what XML forbids', () => {
    const track: Track = {
      name: '<Two> & "Three"\u0001\uD800',
      heightsAbove: 'unknown',
      points: [
        { timeMilliseconds: Date.UTC(2026, 5, 20), latitudeDegrees: 1e-9, longitudeDegrees: 179.999_999_99, heightMetres: -0.001, smoke: null },
        { timeMilliseconds: Date.UTC(2026, 5, 20, 0, 0, 1), latitudeDegrees: -1e-9, longitudeDegrees: -180, heightMetres: null, smoke: 'on' },
      ],
      segmentStarts: [0],
    };
    const text = writeGpx([track], 'Quillwind');
    expect(schemaBreaches(text, rules)).toEqual([]);
    expect(text).toContain('<name>&lt;Two&gt; &amp; &quot;Three&quot;</name>');
    expect(text).toContain('lat="0" lon="-180"');
  });

  it('leaves out heights that are known not to count from the sea', () => {
    const track: Track = {
      name: 'Lead',
      heightsAbove: 'pressure',
      points: [{ timeMilliseconds: 0, latitudeDegrees: 0, longitudeDegrees: 0, heightMetres: 3000, smoke: null }],
      segmentStarts: [0],
    };
    expect(writeGpx([track], 'Quillwind')).not.toContain('<ele>');
  });
});

describe('reading GPX', () => {
  it('reads prefixes, extensions, version 1.0, comments and CDATA as a recorder may write them', () => {
    const text = `<?xml version="1.0"?><g:gpx xmlns:g="http://www.topografix.com/GPX/1/0" version="1.0"><!-- a > comment --><g:wpt lat="1" lon="2"/><g:trk><g:name><![CDATA[Lead & two]]></g:name><g:trkseg>
      <g:trkpt lon="8.25" lat='46.5'><g:time>2026-06-20T12:00:00.200+02:00</g:time><g:extensions><x:hr xmlns:x="y">90</x:hr></g:extensions></g:trkpt>
      <g:trkpt lon="180" lat="-46.5"><g:time>2026-06-20T10:00:01Z</g:time></g:trkpt></g:trkseg></g:trk></g:gpx>`;
    const { tracks } = read(text);
    expect(tracks).toEqual([
      {
        name: 'Lead & two',
        heightsAbove: 'sea',
        points: [
          { timeMilliseconds: Date.UTC(2026, 5, 20, 10, 0, 0, 200), latitudeDegrees: 46.5, longitudeDegrees: 8.25, heightMetres: null, smoke: null },
          { timeMilliseconds: Date.UTC(2026, 5, 20, 10, 0, 1), latitudeDegrees: -46.5, longitudeDegrees: -180, heightMetres: null, smoke: null },
        ],
        segmentStarts: [0],
      },
    ]);
  });

  it('refuses a document type or an entity before any parser sees it', () => {
    const bomb = `<?xml version="1.0"?>\n<!DOCTYPE g [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">]>\n<gpx><trk><name>&b;</name></trk></gpx>`;
    expect(refusal(bomb)).toMatch(/^Line 2: the file declares a document type or an entity/);
    expect(refusal('<gpx><!entity x "y"></gpx>')).toMatch(/^Line 1: the file declares/);
  });

  it('does not widen what an unknown entity says', () => {
    expect(refusal(gpx(point('2026-06-20T10:00:00Z'), '&unknown;'))).not.toContain('undefined');
  });

  it('names the line at which a file is broken off', () => {
    const whole = gpx(Array.from({ length: 20 }, (_, second) => point(`2026-06-20T10:00:${String(second).padStart(2, '0')}Z`)).join('\n'));
    const torn = whole.slice(0, whole.indexOf('10:00:15Z') + 4);
    expect(refusal(torn)).toMatch(/^Line \d+: the file is damaged or broken off/);
  });

  it('answers what is not GPX at all', () => {
    expect(refusal(undefined)).toBe('A track file is text; this is not.');
    expect(refusal({ gpx: 1 })).toBe('A track file is text; this is not.');
    expect(refusal('')).toBe('The file is empty.');
    expect(refusal(' \r\n\t')).toBe('The file is empty.');
    expect(refusal('<kml/>')).toBe('The file is XML but not GPX: its outermost element is not gpx.');
    expect(refusal('hello')).toMatch(/damaged|not GPX/);
    expect(refusal('<gpx/>')).toBe('The file holds no track points.');
    expect(refusal('<gpx><rte><rtept lat="1" lon="2"/></rte></gpx>')).toBe('The file holds no track points.');
    expect(refusal(gpx(point('2026-06-20T10:00:00Z')))).toBe('The file holds no track of at least two points with different times.');
  });

  it('answers 100 MB and 400 nested elements at once', () => {
    const before = processorMilliseconds();
    expect(refusal('<'.padEnd(100_000_000, 'x'))).toBe('The file is 100 MB; more than 48 MB cannot be read here. Split it by flight.');
    expect(refusal(`<gpx>${'<a>'.repeat(400)}${'</a>'.repeat(400)}</gpx>`)).toMatch(/^The file cannot be read as XML/);
    expect(processorMilliseconds() - before).toBeLessThan(2000);
  });

  it('leaves out a few bad points with the first line named, and refuses many', () => {
    const good = Array.from({ length: 300 }, (_, second) => point(new Date(Date.UTC(2026, 5, 20, 10, 0, second)).toISOString()));
    const bad = [...good.slice(0, 100), point('2026-06-20T10:01:39.5Z', '95'), '<trkpt lat="46" lon="8"/>', ...good.slice(100)];
    const { tracks, warnings } = read(gpx(bad.join('\n')));
    expect(tracks[0]!.points).toHaveLength(300);
    expect(warnings).toEqual(['2 points that could not be read were left out. First, line 104: the latitude is no number from -90 to 90.']);
    expect(refusal(gpx([...good.slice(0, 50), ...Array.from({ length: 9 }, () => point('yesterday'))].join('\n')))).toBe(
      '9 of 59 points cannot be read. First, line 54: the time is not written as RFC 3339 wants it.',
    );
  });

  it('puts points out of order in order, and drops doubled times', () => {
    const { tracks, warnings } = read(gpx(['10:00:00', '10:00:02', '10:00:01', '10:00:01', '10:00:03'].map((time) => point(`2026-06-20T${time}Z`)).join('\n')));
    expect(tracks[0]!.points.map(({ timeMilliseconds }) => (timeMilliseconds / 1000) % 60)).toEqual([0, 1, 2, 3]);
    expect(warnings).toEqual([
      'Lead: time ran backward 1 time; the points were put in order of time.',
      'Lead: 1 point with a time already taken was left out.',
    ]);
  });

  it('tells two flights in one track apart, over midnight not', () => {
    const times = ['2026-06-20T09:00:00Z', '2026-06-20T09:00:01Z', '2026-06-20T23:59:59Z', '2026-06-21T00:00:00Z', '2026-06-21T00:00:01Z'];
    const { tracks, warnings } = read(gpx(times.map((time) => point(time)).join('\n')));
    expect(tracks.map(({ name, points }) => [name, points.length])).toEqual([
      ['Lead (flight 1)', 2],
      ['Lead (flight 2)', 3],
    ]);
    expect(warnings).toEqual(['The file holds 2 flights, told apart by pauses of half an hour or more.']);
  });

  it('says that a clock of the year 2001 was not set', () => {
    const { warnings } = read(gpx(['2001-01-01T00:00:10Z', '2001-01-01T00:00:11Z'].map((time) => point(time)).join('\n')));
    expect(warnings).toEqual(["Lead: the recorder's clock says the year 2001, so it was not set. Times between points hold; the time of day does not."]);
  });

  it('never throws and never hangs, whatever a mutation makes of a file', () => {
    const valid = writeGpx(
      [
        {
          name: 'Lead',
          heightsAbove: 'sea',
          points: [0, 1, 2].map((second) => ({
            timeMilliseconds: Date.UTC(2026, 5, 20) + second * 1000,
            latitudeDegrees: 46,
            longitudeDegrees: 8,
            heightMetres: 3000,
            smoke: 'on' as const,
          })),
          segmentStarts: [0],
        },
      ],
      'Quillwind',
    );
    fc.assert(
      fc.property(fc.nat(valid.length), fc.nat(30), fc.string({ unit: 'binary', maxLength: 12 }), (at, dropped, inserted) => {
        const result = readGpx(valid.slice(0, at) + inserted + valid.slice(at + dropped));
        if (!result.ok) expect(result.reason.length).toBeGreaterThan(5);
        else
          for (const track of result.value.tracks)
            for (const { latitudeDegrees, timeMilliseconds } of track.points)
              expect(Number.isFinite(latitudeDegrees) && Number.isFinite(timeMilliseconds)).toBe(true);
      }),
      { numRuns: 500 },
    );
  });
});
