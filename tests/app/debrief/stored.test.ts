import { fc } from '../../property.ts';
import { describe, expect, it } from 'vitest';
import { flownEventsFrom } from '../../../src/app/debrief/flown-events.ts';
import { storedFromTrack, trackFromStored } from '../../../src/app/debrief/imported-tracks.ts';
import { observedMoments, ratingsOf } from '../../../src/app/debrief/observed.ts';
import type { ObserverLog } from '../../../src/core/wire/observer-log.ts';
import { readingFromRows } from '../../../src/store/read-log.ts';
import { storedFromLogRow } from '../../../src/store/read-row.ts';
import { anyTrack } from '../../core/tracks/any-track.ts';

describe('an imported track in the store', () => {
  it('comes back as it was', () => {
    fc.assert(
      fc.property(anyTrack('sea', true), fc.option(fc.nat(2), { nil: null }), (track, shipIndex) => {
        const imported = { id: 'track-1', track, shipIndex, seen: [{ onSeconds: 1, offSeconds: 2 }] };
        expect(trackFromStored(structuredClone(storedFromTrack(imported)))).toEqual(imported);
      }),
      { numRuns: 50 },
    );
  });

  it('is none when it is damaged in any part', () => {
    const track = fc.sample(anyTrack('sea', false), { numRuns: 1, seed: 5 })[0]!;
    const stored = storedFromTrack({ id: 'a', track, shipIndex: null, seen: [] });
    expect(trackFromStored(stored)).not.toBeNull();
    for (const damaged of [
      null,
      7,
      {},
      { ...stored, points: [1, 2] },
      { ...stored, points: stored.points.subarray(1) },
      { ...stored, heightsAbove: 'moon' },
      { ...stored, segmentStarts: 'none' },
      { ...stored, name: 3 },
    ]) {
      expect(trackFromStored(damaged)).toBeNull();
    }
    const outOfOrder = stored.points.slice();
    outOfOrder[5] = outOfOrder[0]! - 1;
    expect(trackFromStored({ ...stored, points: outOfOrder })).toBeNull();
    const offTheEarth = stored.points.slice();
    offTheEarth[1] = 95;
    expect(trackFromStored({ ...stored, points: offTheEarth })).toBeNull();
  });
});

describe('a log with rows missing', () => {
  const row = (sequence: number, event: unknown) => storedFromLogRow('f', { sequence, monotonicSeconds: sequence, wallMilliseconds: 1000 * sequence, event });
  const tick = (sequence: number) => ({ kind: 'clockAdvanced', atSeconds: sequence, wallMilliseconds: 1000 * sequence });

  it('shows the stretch that was lost, and never joins over it', () => {
    const kept = [0, 1, 2, 7, 8].map((sequence) => row(sequence, tick(sequence)));
    const flown = flownEventsFrom(readingFromRows([0, 1, 2, 7, 8], kept));
    expect(flown.events).toHaveLength(5);
    expect(flown.lost).toEqual([{ fromMilliseconds: 2000, toMilliseconds: 7000, rows: 4 }]);
  });

  it('counts rows of another version and a torn end', () => {
    const rows: unknown[] = [row(0, tick(0)), row(1, { kind: 'fromTheFuture', atSeconds: 1, wallMilliseconds: 1000 }), { ...row(2, tick(2)), checksum: 1 }];
    expect(flownEventsFrom(readingFromRows([0, 1, 2], rows))).toMatchObject({ unreadRows: 1, cutRows: 1, lost: [] });
  });
});

describe('what the ground wrote down', () => {
  const log: ObserverLog = {
    format: 'quillwind-observer',
    version: 1,
    jobId: 'j',
    jobDigest: null,
    observerId: 'o',
    observerName: 'Pier',
    entries: [
      { sequence: 0, atMilliseconds: 5_000, sinceDatumSeconds: null, kind: 'hack', source: 'radio', datumMilliseconds: 5_000 },
      { sequence: 1, atMilliseconds: 999_000, sinceDatumSeconds: 60, kind: 'rated', letterIndex: 2, character: 'I', rating: 'reads' },
      { sequence: 2, atMilliseconds: 120_000, sinceDatumSeconds: null, kind: 'noted', text: 'cloud coming' },
      { sequence: 3, atMilliseconds: 130_000, sinceDatumSeconds: 130, kind: 'rated', letterIndex: 2, character: 'I', rating: 'broken' },
      { sequence: 4, atMilliseconds: 140_000, sinceDatumSeconds: 140, kind: 'withdrawn', withdrawnSequence: 3 },
    ],
  };

  it('goes by the time hack, whatever the observer\u2019s clock said, and leaves out what was withdrawn', () => {
    const moments = observedMoments([log], 100_000, 0, 300_000);
    expect(moments.map(({ atMilliseconds, timedBy, entry }) => [atMilliseconds, timedBy, entry.kind])).toEqual([
      [120_000, 'clock', 'noted'],
      [160_000, 'hack', 'rated'],
    ]);
    expect(ratingsOf(moments, 100_000)).toEqual([{ letterIndex: 2, atSeconds: 60, reads: 'well' }]);
    // Without a datum only the observer's clock is left, which here is far off.
    expect(observedMoments([log], null, 0, 300_000).map(({ atMilliseconds }) => atMilliseconds)).toEqual([120_000, 999_000]);
    expect(observedMoments([log], null, 200_000, 300_000)).toHaveLength(1);
  });
});
