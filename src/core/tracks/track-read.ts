import { readGpx } from './gpx-read.ts';
import { readIgc } from './igc-read.ts';
import { readNmea } from './nmea-read.ts';
import type { ReadResult, TracksRead } from './track.ts';
import { trackTextFrom } from './track-text.ts';

/**
 * Tracks of a file of any format read here, told by its first character that is no space: GPX begins with `<`, IGC
 * with the `A` of its recorder, NMEA sentences with `$`. What a file is called does not matter.
 */
export function readTracks(input: unknown): ReadResult<TracksRead> {
  const text = trackTextFrom(input);
  if (!text.ok) return text;
  const first = /\S/.exec(text.value)?.[0];
  if (first === '<') return readGpx(text.value);
  if (first === 'A') return readIgc(text.value);
  if (first === '$') return readNmea(text.value);
  return { ok: false, reason: 'The file is neither GPX nor IGC nor NMEA: it begins as none of them does.' };
}
