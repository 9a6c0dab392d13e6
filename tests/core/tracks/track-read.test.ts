import { describe, expect, it } from 'vitest';
import { cleanName } from '../../../src/core/text/clean-name.ts';
import { writeGpx } from '../../../src/core/tracks/gpx-write.ts';
import { writeIgc } from '../../../src/core/tracks/igc-write.ts';
import type { Track } from '../../../src/core/tracks/track.ts';
import { fixesFromTrack } from '../../../src/core/tracks/track-fixes.ts';
import { readTracks } from '../../../src/core/tracks/track-read.ts';
import { decimalText } from '../../../src/core/tracks/xml-text.ts';

const track: Track = {
  name: 'Lead',
  heightsAbove: 'sea',
  points: [0, 200, 1200].map((milliseconds) => ({
    timeMilliseconds: Date.UTC(2026, 5, 20) + milliseconds,
    latitudeDegrees: 46,
    longitudeDegrees: 8,
    heightMetres: 3000,
    smoke: 'off' as const,
  })),
  segmentStarts: [0],
};

describe('a track file of any format', () => {
  it('is told by what it holds', () => {
    expect(readTracks(`\uFEFF${writeGpx([track], 'Quillwind')}`)).toEqual({ ok: true, value: { tracks: [track], warnings: [] } });
    expect(readTracks(writeIgc(track, 'Quillwind'))).toEqual({ ok: true, value: { tracks: [track], warnings: [] } });
    expect(readTracks('{"type": "FeatureCollection"}')).toEqual({
      ok: false,
      reason: 'The file is neither GPX nor IGC nor NMEA: it begins as none of them does.',
    });
    expect(readTracks(null)).toMatchObject({ ok: false });
  });
});

describe('a track as a source of fixes', () => {
  it('gives each point at its time and invents none', () => {
    const fixes = fixesFromTrack(track);
    expect(fixes.map(({ atSeconds }) => atSeconds)).toEqual([0, 0.2, 1.2]);
    expect(fixes[2]!.fix).toEqual({
      latitudeDegrees: 46,
      longitudeDegrees: 8,
      accuracyMetres: 10,
      altitudeMetres: 3000,
      groundSpeedMetresPerSecond: null,
      trackDegrees: null,
      stampMilliseconds: Date.UTC(2026, 5, 20) + 1200,
    });
  });
});

describe('names and numbers', () => {
  it('strips what hides or turns text, and joins spaces', () => {
    expect(cleanName(' Lead\u202E \t 1 ')).toBe('Lead 1');
    expect(cleanName('a\u0000b\u200Bc\uFEFF\uD800')).toBe('abc');
    expect(cleanName('e\u0301')).toBe('é');
    expect(Array.from(cleanName('𝒳'.repeat(99)))).toHaveLength(60);
  });

  it('writes decimals without exponent, trailing zeros or a negative zero', () => {
    expect([-1e-8, 46.5, 100, 0.1, -0.5].map((value) => decimalText(value, 7))).toEqual(['0', '46.5', '100', '0.1', '-0.5']);
    expect(decimalText(100, 0)).toBe('100');
    expect(() => decimalText(Number.NaN, 1)).toThrow(RangeError);
  });
});
