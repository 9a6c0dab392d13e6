import type { ReadResult, TracksRead } from '../core/tracks/track.ts';
import { readTracks } from '../core/tracks/track-read.ts';

/** The tracks of a file's bytes, or why it cannot be read. Never throws. */
export function tracksFromBytes(bytes: ArrayBuffer): ReadResult<TracksRead> {
  const head = new Uint8Array(bytes, 0, Math.min(2, bytes.byteLength));
  // Some recorders' software writes UTF-16, which begins with a byte order mark.
  const encoding = head[0] === 0xff && head[1] === 0xfe ? 'utf-16le' : head[0] === 0xfe && head[1] === 0xff ? 'utf-16be' : 'utf-8';
  try {
    return readTracks(new TextDecoder(encoding).decode(bytes));
  } catch (error) {
    return { ok: false, reason: `The file cannot be read: ${error instanceof Error ? error.message : String(error)}.` };
  }
}
