import type { DeskShip } from '../../../app/debrief/desk-types.ts';
import { fileNameFrom, type MadeFile } from '../../../app/hand-over-file.ts';
import { exportedTrack } from '../../../core/debrief/exported-track.ts';
import { writeCsv } from '../../../core/tracks/csv-write.ts';
import { writeTrackGeoJson } from '../../../core/tracks/geojson-write.ts';
import { writeGpx } from '../../../core/tracks/gpx-write.ts';
import { writeIgc } from '../../../core/tracks/igc-write.ts';
import { writeKml } from '../../../core/tracks/kml-write.ts';
import type { Track } from '../../../core/tracks/track.ts';
import type { ImportedTrack } from '../../../app/debrief/imported-tracks.ts';

/** The formats a flight is given away in. */
export const EXPORT_FORMATS = ['gpx', 'igc', 'kml', 'geojson', 'csv'] as const;

export type ExportFormat = (typeof EXPORT_FORMATS)[number];

const CREATOR = 'Quillwind';

const TYPES: Readonly<Record<ExportFormat, string>> = {
  gpx: 'application/gpx+xml',
  igc: 'text/plain',
  kml: 'application/vnd.google-earth.kml+xml',
  geojson: 'application/geo+json',
  csv: 'text/csv',
};

/** Every ship as a track: a log's fixes as received, an imported track with the smoke as it is believed now. */
export function tracksToExport(ships: readonly DeskShip[], imported: readonly ImportedTrack[]): Track[] {
  return ships.flatMap((ship): Track[] => {
    const intervals = ship.debrief?.intervals ?? [];
    if (ship.kind === 'flight') return [exportedTrack(ship.log, intervals)];
    const source = imported.find(({ id }) => id === ship.key);
    if (source === undefined) return [];
    const { track } = source;
    const first = track.points[0]?.timeMilliseconds ?? 0;
    const marked = intervals.length > 0;
    return [
      {
        ...track,
        points: track.points.map((point) => {
          const seconds = (point.timeMilliseconds - first) / 1000;
          return marked
            ? { ...point, smoke: intervals.some(({ onSeconds, offSeconds }) => seconds >= onSeconds && seconds < offSeconds) ? 'on' : 'off' }
            : point;
        }),
      },
    ];
  });
}

/** The files of a format: one for all ships, but IGC, which holds a single flight, one for each. */
export function exportFiles(tracks: readonly Track[], format: ExportFormat, title: string): MadeFile[] {
  const file = (name: string, content: string): MadeFile => ({ name: fileNameFrom(name, format), type: TYPES[format], content });
  switch (format) {
    case 'gpx':
      return [file(title, writeGpx(tracks, CREATOR))];
    case 'igc':
      return tracks.filter(({ points }) => points.length > 0).map((track) => file(`${title} ${track.name}`, writeIgc(track, CREATOR)));
    case 'kml':
      return [file(title, writeKml(tracks, title))];
    case 'geojson':
      return [file(title, writeTrackGeoJson(tracks))];
    case 'csv':
      return [file(title, writeCsv(tracks))];
  }
}
