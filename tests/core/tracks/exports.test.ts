import { XMLParser } from 'fast-xml-parser';
import { fc } from '../../property.ts';
import { describe, expect, it } from 'vitest';
import { writeCsv } from '../../../src/core/tracks/csv-write.ts';
import { writeTrackGeoJson } from '../../../src/core/tracks/geojson-write.ts';
import { writeKml } from '../../../src/core/tracks/kml-write.ts';
import { type HeightsAbove, type Track, type TrackPoint, trackSegments } from '../../../src/core/tracks/track.ts';
import { anyTrack } from './any-track.ts';
import { schemaBreaches, schemaRules } from '../text/schema-check.ts';

const rules = schemaRules('kml-2.3');

interface KmlPlacemark {
  readonly Track: {
    readonly altitudeMode: string;
    readonly when: readonly string[];
    readonly coord: readonly string[];
    readonly ExtendedData: { readonly SchemaData: { readonly SimpleArrayData: { readonly value: readonly string[] } } };
  };
}

/** What the text says, by a reader that knows the format and not the writer. */
function kmlTracks(text: string): { readonly name: string; readonly segments: readonly (readonly TrackPoint[])[] }[] {
  const parsed = new XMLParser({ parseTagValue: false, isArray: (name) => ['Folder', 'Placemark', 'when', 'coord', 'value'].includes(name) }).parse(text) as {
    readonly kml: { readonly Document: { readonly Folder: readonly { readonly name: string; readonly Placemark: readonly KmlPlacemark[] }[] } };
  };
  return parsed.kml.Document.Folder.map((folder) => ({
    name: folder.name,
    segments: folder.Placemark.map(({ Track: track }) =>
      track.when.map((when, index) => {
        const [longitudeDegrees, latitudeDegrees, heightMetres] = track.coord[index]!.split(' ').map(Number);
        const smoke = track.ExtendedData.SchemaData.SimpleArrayData.value[index];
        return {
          timeMilliseconds: Date.parse(when),
          latitudeDegrees: latitudeDegrees!,
          longitudeDegrees: longitudeDegrees!,
          heightMetres: track.altitudeMode === 'absolute' ? heightMetres! : null,
          smoke: smoke === 'on' || smoke === 'off' ? smoke : null,
        };
      }),
    ),
  }));
}

/** RFC 4180, read character by character. */
function csvRows(text: string): string[][] {
  const rows: string[][] = [];
  let cells: string[] = [];
  let cell = '';
  let quoted = false;
  for (let at = 0; at < text.length; at += 1) {
    const character = text[at]!;
    if (quoted) {
      if (character !== '"') cell += character;
      else if (text[at + 1] !== '"') quoted = false;
      else {
        at += 1;
        cell += '"';
      }
    } else if (character === '"') {
      quoted = true;
    } else if (character === ',') {
      cells.push(cell);
      cell = '';
    } else if (character === '\r' && text[at + 1] === '\n') {
      rows.push([...cells, cell]);
      cells = [];
      cell = '';
      at += 1;
    } else {
      cell += character;
    }
  }
  return rows;
}

function withHeights(track: Track): Track {
  return { ...track, points: track.points.map((point) => ({ ...point, heightMetres: point.heightMetres ?? 100 })) };
}

describe('writing KML', () => {
  it('is valid against the rules of the published schema, and reads back as it was', () => {
    fc.assert(
      fc.property(fc.array(anyTrack('sea', true).map(withHeights), { minLength: 1, maxLength: 3 }), (tracks) => {
        const text = writeKml(tracks, 'Regatta & "friends"');
        expect(schemaBreaches(text, rules)).toEqual([]);
        expect(kmlTracks(text)).toEqual(tracks.map((track) => ({ name: track.name, segments: trackSegments(track) })));
      }),
      { numRuns: 80 },
    );
  });

  it('clamps to the ground what has no height above the sea, and says so', () => {
    fc.assert(
      fc.property(anyTrack('pressure', true), (track) => {
        const text = writeKml([track], 'x');
        expect(schemaBreaches(text, rules)).toEqual([]);
        expect(text).not.toContain('absolute');
        expect(text).toContain('Heights above the sea are not known');
      }),
      { numRuns: 20 },
    );
  });

  it('keeps the checker honest: version 2.2, an unequal count and a foreign element are breaches', () => {
    const valid = writeKml(
      [
        {
          name: 'Lead',
          heightsAbove: 'sea',
          points: [{ timeMilliseconds: 0, latitudeDegrees: 1, longitudeDegrees: 2, heightMetres: 3, smoke: null }],
          segmentStarts: [0],
        },
      ],
      'x',
    );
    expect(schemaBreaches(valid, rules)).toEqual([]);
    expect(schemaBreaches(valid.replace('version="2.3"', 'version="2.2"'), rules)).not.toEqual([]);
    expect(schemaBreaches(valid.replace('<when>1970-01-01T00:00:00Z</when>', ''), rules)).not.toEqual([]);
    expect(schemaBreaches(valid.replaceAll('coord>', 'gx:coord>'), rules)).not.toEqual([]);
    expect(schemaBreaches(valid.replace('absolute', 'aloft'), rules)).not.toEqual([]);
  });
});

describe('writing CSV', () => {
  it('reads back as it was by RFC 4180', () => {
    fc.assert(
      fc.property(fc.array(anyTrack('ellipsoid', true), { minLength: 1, maxLength: 3 }), (tracks) => {
        const [header, ...rows] = csvRows(writeCsv(tracks));
        expect(header).toEqual(['ship', 'time_utc', 'latitude_degrees', 'longitude_degrees', 'height_metres', 'heights_above', 'segment', 'smoke']);
        const expected = tracks.flatMap((track) =>
          trackSegments(track).flatMap((segment, index) => segment.map((point) => ({ ship: track.name, segment: index + 1, ...point }))),
        );
        const back = rows.map(([ship, time, latitude, longitude, height, above, segment, smoke]) => {
          expect(above).toBe('ellipsoid');
          return {
            ship,
            segment: Number(segment),
            timeMilliseconds: Date.parse(time!),
            latitudeDegrees: Number(latitude),
            longitudeDegrees: Number(longitude),
            heightMetres: height === '' ? null : Number(height),
            smoke: smoke === '' ? null : smoke,
          };
        });
        expect(back).toEqual(expected);
      }),
      { numRuns: 80 },
    );
  });

  it('quotes names, and disarms those a spreadsheet would compute', () => {
    const named = (name: string): string =>
      csvRows(
        writeCsv([
          {
            name,
            heightsAbove: 'sea',
            points: [{ timeMilliseconds: 0, latitudeDegrees: 1, longitudeDegrees: 2, heightMetres: null, smoke: null }],
            segmentStarts: [0],
          },
        ]),
      )[1]![0]!;
    expect(named('Lead, "one"')).toBe('Lead, "one"');
    expect(named('=1+1')).toBe("'=1+1");
    expect(named('@SUM(A1)')).toBe("'@SUM(A1)");
  });
});

interface Feature {
  readonly type: string;
  readonly geometry: { readonly type: 'Point' | 'LineString'; readonly coordinates: readonly (readonly number[])[] | readonly number[] };
  readonly properties: {
    readonly ship: string;
    readonly smoke: TrackPoint['smoke'];
    readonly coordTimes: readonly string[];
    readonly heightsMetres: readonly (number | null)[];
    readonly heightsAbove: HeightsAbove;
    readonly start: string;
    readonly end: string;
  };
}

function featuresOf(text: string): readonly Feature[] {
  const parsed = JSON.parse(text) as { readonly type: string; readonly features: readonly Feature[]; readonly crs?: unknown };
  expect(parsed.type).toBe('FeatureCollection');
  expect(parsed.crs).toBeUndefined();
  return parsed.features;
}

function positionsOf({ geometry }: Feature): readonly (readonly number[])[] {
  return geometry.type === 'Point' ? [geometry.coordinates as readonly number[]] : (geometry.coordinates as readonly (readonly number[])[]);
}

describe('writing GeoJSON', () => {
  it('keeps the rules of RFC 7946 and holds every point with its time and smoke', () => {
    fc.assert(
      fc.property(fc.array(anyTrack('sea', true), { minLength: 1, maxLength: 2 }), (tracks) => {
        const features = featuresOf(writeTrackGeoJson(tracks));
        const said = new Set<string>();
        for (const feature of features) {
          expect(feature.type).toBe('Feature');
          const positions = positionsOf(feature);
          expect(positions.length).toBe(feature.properties.coordTimes.length);
          if (feature.geometry.type === 'LineString') expect(positions.length).toBeGreaterThanOrEqual(2);
          positions.forEach((position, index) => {
            expect(position).toHaveLength(2);
            expect(Math.abs(position[0]!)).toBeLessThanOrEqual(180);
            expect(Math.abs(position[1]!)).toBeLessThanOrEqual(90);
            // 3.1.9: no line may cross the antimeridian.
            if (index > 0) expect(Math.abs(position[0]! - positions[index - 1]![0]!)).toBeLessThanOrEqual(180);
            const key = `${feature.properties.ship} ${feature.properties.coordTimes[index]!}`;
            said.add(`${key} ${feature.properties.smoke} ${position.join()}`);
          });
        }
        for (const { name, points } of tracks) {
          for (const { timeMilliseconds, smoke, longitudeDegrees, latitudeDegrees } of points) {
            expect(said).toContain(`${name} ${new Date(timeMilliseconds).toISOString().replace('.000Z', 'Z')} ${smoke} ${longitudeDegrees},${latitudeDegrees}`);
          }
        }
      }),
      { numRuns: 80 },
    );
  });

  it('cuts at the antimeridian where the line crosses it', () => {
    const at = (second: number, longitudeDegrees: number): TrackPoint => ({
      timeMilliseconds: second * 1000,
      latitudeDegrees: second,
      longitudeDegrees,
      heightMetres: 100,
      smoke: 'on',
    });
    const features = featuresOf(writeTrackGeoJson([{ name: 'Lead', heightsAbove: 'ellipsoid', points: [at(0, 179), at(1, -179)], segmentStarts: [0] }]));
    expect(features.map(positionsOf)).toEqual([
      [
        [179, 0, 100],
        [180, 0.5, 100],
      ],
      [
        [-180, 0.5, 100],
        [-179, 1, 100],
      ],
    ]);
    expect(features[1]!.properties.start).toBe('1970-01-01T00:00:00.500Z');
  });
});
