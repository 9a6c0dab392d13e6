import type { Track } from './track.ts';
import { rfc3339FromMilliseconds } from '../text/utc.ts';
import { decimalText } from './xml-text.ts';

const COLUMNS = ['ship', 'time_utc', 'latitude_degrees', 'longitude_degrees', 'height_metres', 'heights_above', 'segment', 'smoke'];

/**
 * CSV text (RFC 4180: a header line, CR LF, quotes doubled) with one line for each point of each ship, in each ship's
 * order of time. An empty cell is a value nobody recorded. A name that a spreadsheet would take for a formula gets an
 * apostrophe in front.
 */
export function writeCsv(tracks: readonly Track[]): string {
  const lines = [COLUMNS.join(',')];
  for (const track of tracks) {
    const ship = cell(track.name);
    let segment = 0;
    track.points.forEach((point, index) => {
      if (index === track.segmentStarts[segment]) segment += 1;
      lines.push(
        [
          ship,
          rfc3339FromMilliseconds(point.timeMilliseconds),
          decimalText(point.latitudeDegrees, 7),
          decimalText(point.longitudeDegrees, 7),
          point.heightMetres === null ? '' : decimalText(point.heightMetres, 2),
          track.heightsAbove,
          String(segment),
          point.smoke ?? '',
        ].join(','),
      );
    });
  }
  return `${lines.join('\r\n')}\r\n`;
}

function cell(text: string): string {
  const harmless = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(harmless) ? `"${harmless.replace(/"/g, '""')}"` : harmless;
}
