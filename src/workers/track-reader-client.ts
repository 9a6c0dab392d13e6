import { type ReadResult, TRACK_TEXT_LIMIT_BYTES, type TracksRead } from '../core/tracks/track.ts';
import { tooLargeReason } from '../core/tracks/track-text.ts';

/** A file as the picker or a drop gives it. */
export type TrackFile = Pick<File, 'name' | 'size' | 'arrayBuffer'>;

/** A file of ordinary size is read well within this; each megabyte more is given two seconds. */
const LIMIT_MILLISECONDS = 2000;
const LIMIT_MILLISECONDS_PER_MEGABYTE = 2000;

/** Anything that posts a message and answers with one. */
export interface TrackReaderWorker {
  onmessage: ((event: MessageEvent<ReadResult<TracksRead>>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
  postMessage(message: ArrayBuffer, transfer: Transferable[]): void;
  terminate(): void;
}

/**
 * Reads the tracks of a file off the page, with a timer that ends the worker: what is hostile enough to hang a parser
 * hangs nothing else. Files over 48 MB are refused before a byte is read. Never rejects.
 */
export async function readTrackFile(file: TrackFile, startWorker: () => TrackReaderWorker = startTrackReader): Promise<ReadResult<TracksRead>> {
  if (file.size > TRACK_TEXT_LIMIT_BYTES) return { ok: false, reason: tooLargeReason(file.size) };
  const limitMilliseconds = LIMIT_MILLISECONDS + (LIMIT_MILLISECONDS_PER_MEGABYTE * file.size) / 1e6;
  const timedOut: ReadResult<TracksRead> = {
    ok: false,
    reason: `The file could not be read within ${Math.round(limitMilliseconds / 1000)} s. It may be damaged; if it lies in a cloud, open it there first.`,
  };
  let worker: TrackReaderWorker | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<ReadResult<TracksRead>>((resolve) => {
    timer = setTimeout(() => resolve(timedOut), limitMilliseconds);
  });
  const reading = async (): Promise<ReadResult<TracksRead>> => {
    const bytes = await file.arrayBuffer();
    return new Promise((resolve) => {
      worker = startWorker();
      worker.onmessage = ({ data }) => resolve(data);
      worker.onerror = () => resolve({ ok: false, reason: 'The file could not be read: the reader broke off.' });
      worker.postMessage(bytes, [bytes]);
    });
  };
  try {
    return await Promise.race([reading(), late]);
  } catch {
    return { ok: false, reason: 'The file could not be opened.' };
  } finally {
    clearTimeout(timer);
    // Typed by hand: the assignment happens in a closure.
    (worker as TrackReaderWorker | null)?.terminate();
  }
}

function startTrackReader(): TrackReaderWorker {
  return new Worker(new URL('./track-reader.worker.ts', import.meta.url), { type: 'module', name: 'track-reader' });
}
