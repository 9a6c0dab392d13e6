import { fc } from '../../property.ts';
import { describe, expect, it } from 'vitest';
import { createNmeaReader } from '../../../src/core/tracks/nmea-fixes.ts';
import { nmeaSentence } from '../../../src/core/tracks/nmea-sentence.ts';
import { readTracks } from '../../../src/core/tracks/track-read.ts';

/** The sentences that receivers' manuals have printed as examples since the 1990s; 48 degrees 7.038 minutes north. */
const GGA = '$GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,*47';
const RMC = '$GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W*6A';
const NOW = Date.UTC(1994, 2, 23, 12, 35, 20);

const withSum = (body: string): string =>
  `$${body}*${[...body]
    .reduce((sum, character) => sum ^ character.charCodeAt(0), 0)
    .toString(16)
    .toUpperCase()
    .padStart(2, '0')}`;
const clock = (milliseconds: number): string => new Date(milliseconds).toISOString().slice(11, 22).replaceAll(':', '');
function epoch(milliseconds: number, talker: string, metresNorth: number, date = '230394'): string {
  const latitude = `4807.${String(Math.round(38_000 + (metresNorth / 1852) * 1_000_000))
    .padStart(6, '0')
    .slice(-6)}`;
  return `${withSum(`${talker}GGA,${clock(milliseconds)},${latitude},N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,`)}\r\n${withSum(`${talker}RMC,${clock(milliseconds)},A,${latitude},N,01131.000,E,104.3,000.0,${date},003.1,W`)}\r\n`;
}

describe('NMEA 0183', () => {
  it('believes a sentence by its checksum alone', () => {
    expect(nmeaSentence(GGA)).toMatchObject({ talker: 'GP', kind: 'GGA' });
    expect(nmeaSentence(GGA.replace('4807', '4808'))).toBeNull();
    expect(nmeaSentence(GGA.replace('*47', ''))).toBeNull();
  });

  it('makes one fix of the example\u2019s GGA and RMC', () => {
    const reader = createNmeaReader();
    const fixes = reader.feed(`${GGA}\r\n${RMC}\r\n`, NOW);
    expect(fixes).toEqual([
      {
        latitudeDegrees: expect.closeTo(48 + 7.038 / 60, 9),
        longitudeDegrees: expect.closeTo(11 + 31 / 60, 9),
        accuracyMetres: expect.closeTo(7.2, 9),
        altitudeMetres: 545.4,
        // 22.4 kt of 1,852 m an hour.
        groundSpeedMetresPerSecond: expect.closeTo(11.5236, 3),
        trackDegrees: 84.4,
        stampMilliseconds: Date.UTC(1994, 2, 23, 12, 35, 19),
      },
    ]);
  });

  it('reads 10 Hz in pieces of any length, and says the rate', () => {
    const stream = Array.from({ length: 60 }, (_, index) => epoch(NOW + index * 100, 'GN', index * 5)).join('');
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 300 }), (length) => {
        const reader = createNmeaReader();
        let count = 0;
        for (let at = 0; at < stream.length; at += length) count += reader.feed(stream.slice(at, at + length), NOW).length;
        expect(count).toBe(60);
        expect(reader.status().ratePerSecond).toBeCloseTo(10, 6);
      }),
      { numRuns: 40 },
    );
  });

  it('follows one of two talkers, and the other when the first falls silent', () => {
    const reader = createNmeaReader();
    const both = Array.from({ length: 5 }, (_, index) => epoch(NOW + index * 1000, 'GP', 0) + epoch(NOW + index * 1000, 'GL', 0)).join('');
    expect(reader.feed(both, NOW)).toHaveLength(5);
    expect(reader.status().talker).toBe('GP');
    const alone = Array.from({ length: 6 }, (_, index) => epoch(NOW + (5 + index) * 1000, 'GL', 0)).join('');
    // Two seconds of patience, then the other is believed.
    expect(reader.feed(alone, NOW).length).toBeGreaterThanOrEqual(3);
    expect(reader.status().talker).toBe('GL');
  });

  it('survives garbage between, a jump of rate and a loss of fix', () => {
    const reader = createNmeaReader();
    let count = reader.feed(`\u00ff\u00fe$GPGGA,12\r\nnoise${epoch(NOW, 'GP', 0)}`, NOW).length;
    count += reader.feed(`${withSum('GPRMC,123521.00,V,,,,,,,230394,,')}\r\n${withSum('GPGGA,123521.00,,,,,0,00,99.9,,,,,,')}\r\n`, NOW).length;
    for (let index = 0; index < 20; index += 1) count += reader.feed(epoch(NOW + 2000 + index * 200, 'GP', 0), NOW).length;
    expect(count).toBe(21);
    expect(reader.status().ratePerSecond).toBeCloseTo(5, 6);
    expect(reader.status().garbage).toBeGreaterThan(0);
  });

  it('goes over midnight, and knows the day near the clock where no sentence names it', () => {
    const reader = createNmeaReader();
    const midnight = Date.UTC(2027, 5, 20);
    const gga = (milliseconds: number): string => `${withSum(`GPGGA,${clock(milliseconds)},4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,`)}\r\n`;
    const fixes = [midnight - 1000, midnight, midnight + 1000].flatMap((at) => reader.feed(gga(at), at + 300));
    fixes.push(...reader.feed(gga(midnight + 2000), midnight + 2300));
    expect(fixes.map(({ stampMilliseconds }) => stampMilliseconds! - midnight)).toEqual([-1000, 0, 1000]);
  });

  it('never throws on any bytes', () => {
    fc.assert(
      fc.property(fc.array(fc.oneof(fc.string(), fc.constant('$GP'), fc.constant('\r\n'), fc.constant(GGA))), (pieces) => {
        const reader = createNmeaReader();
        for (const piece of pieces) for (const fix of reader.feed(piece, NOW)) expect(Number.isFinite(fix.latitudeDegrees)).toBe(true);
      }),
    );
  });

  it('is read as a file, as any recorder\u2019s', () => {
    const text = Array.from({ length: 30 }, (_, index) => epoch(Date.UTC(2027, 5, 19, 17) + index * 1000, 'GP', index, '190627')).join('');
    const read = readTracks(text);
    expect(read.ok && read.value.tracks[0]?.points.length).toBe(30);
    expect(readTracks(`${GGA}\r\n`)).toMatchObject({ ok: false, reason: expect.stringContaining('RMC') });
  });
});
