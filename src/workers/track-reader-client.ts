import { transfer } from 'comlink';
import { type ReadResult, TRACK_TEXT_LIMIT_BYTES, type TracksRead } from '../core/tracks/track.ts';
import { tooLargeReason } from '../core/tracks/track-text.ts';
import { type OffPage, startOffPage } from './off-page.ts';

/** A file as the picker or a drop gives it. */
export type TrackFile = Pick<File, 'name' | 'size' | 'arrayBuffer'>;

/** A file of ordinary size is read well within this; each megabyte more is given two seconds. */
const LIMIT_MILLISECONDS = 2000;
const LIMIT_MILLISECONDS_PER_MEGABYTE = 2000;

/**
 * Reads the tracks of a file off the page, with a timer that ends the worker: what is hostile enough to hang a parser
 * hangs nothing else. Files over 48 MB are refused before a byte is read. Never rejects.
 */
export async function readTrackFile(file: TrackFile, start: () => OffPage = () => startOffPage('track reader')): Promise<ReadResult<TracksRead>> {
  if (file.size > TRACK_TEXT_LIMIT_BYTES) return { ok: false, reason: tooLargeReason(file.size) };
  const limitMilliseconds = LIMIT_MILLISECONDS + (LIMIT_MILLISECONDS_PER_MEGABYTE * file.size) / 1e6;
  const timedOut: ReadResult<TracksRead> = {
    ok: false,
    reason: `The file could not be read within ${Math.round(limitMilliseconds / 1000)} s. It may be damaged; if it lies in a cloud, open it there first.`,
  };
  const brokeOff: ReadResult<TracksRead> = { ok: false, reason: 'The file could not be read: the reader broke off.' };
  let worker: OffPage | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<ReadResult<TracksRead>>((resolve) => {
    timer = setTimeout(() => resolve(timedOut), limitMilliseconds);
  });
  const reading = async (): Promise<ReadResult<TracksRead>> => {
    let bytes: ArrayBuffer;
    try {
      bytes = await file.arrayBuffer();
    } catch {
      return { ok: false, reason: 'The file could not be opened.' };
    }
    worker = start();
    return Promise.race([worker.services.readTracks(transfer(bytes, [bytes])), worker.broken]).catch(() => brokeOff);
  };
  try {
    return await Promise.race([reading(), late]);
  } finally {
    clearTimeout(timer);
    // Typed by hand: the assignment happens in a closure.
    (worker as OffPage | null)?.end();
  }
}
