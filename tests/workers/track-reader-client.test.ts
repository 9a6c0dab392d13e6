import { describe, expect, test, vi } from 'vitest';
import type { ReadResult, TracksRead } from '../../src/core/tracks/track.ts';
import type { OffPage } from '../../src/workers/off-page.ts';
import { readTrackFile, type TrackFile } from '../../src/workers/track-reader-client.ts';

const EMPTY: ReadResult<TracksRead> = { ok: true, value: { tracks: [], warnings: [] } };

function fileOf(size: number, arrayBuffer: () => Promise<ArrayBuffer> = async () => new ArrayBuffer(size)): TrackFile {
  return { name: 'a.gpx', size, arrayBuffer };
}

/** A worker that answers as told, and remembers its end. */
function stub(answer: () => Promise<ReadResult<TracksRead>>, broken: Promise<never> = new Promise(() => {})) {
  const end = vi.fn();
  const start = (): OffPage => ({ services: { readTracks: answer } as unknown as OffPage['services'], broken, end });
  return { start, terminate: end };
}

describe('reading a track file off the page', () => {
  test('hands the answer over and ends the worker', async () => {
    const { start, terminate } = stub(async () => EMPTY);
    expect(await readTrackFile(fileOf(10), start)).toEqual(EMPTY);
    expect(terminate).toHaveBeenCalledOnce();
  });

  test('kills a worker that hangs, after two seconds and two for each megabyte', async () => {
    vi.useFakeTimers();
    const { start, terminate } = stub(() => new Promise(() => {}));
    const reading = readTrackFile(fileOf(500_000), start);
    await vi.advanceTimersByTimeAsync(2900);
    expect(terminate).not.toHaveBeenCalled();
    await vi.advanceTimersByTimeAsync(200);
    expect(await reading).toMatchObject({ ok: false, reason: expect.stringContaining('within 3 s') });
    expect(terminate).toHaveBeenCalledOnce();
    vi.useRealTimers();
  });

  test('refuses 100 MB before a byte is read, and says what it could not open', async () => {
    const arrayBuffer = vi.fn(async () => new ArrayBuffer(1));
    expect(await readTrackFile(fileOf(100_000_000, arrayBuffer))).toEqual({
      ok: false,
      reason: 'The file is 100 MB; more than 48 MB cannot be read here. Split it by flight.',
    });
    expect(arrayBuffer).not.toHaveBeenCalled();
    expect(await readTrackFile(fileOf(1, () => Promise.reject(new Error('gone'))))).toEqual({ ok: false, reason: 'The file could not be opened.' });
    const { start } = stub(() => new Promise(() => {}), Promise.reject(new Error('gone')));
    expect(await readTrackFile(fileOf(1), start)).toEqual({ ok: false, reason: 'The file could not be read: the reader broke off.' });
  });
});
