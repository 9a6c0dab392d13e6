import { fc } from '../../property.ts';
import { describe, expect, it } from 'vitest';
import { exportedTrack } from '../../../src/core/debrief/exported-track.ts';
import { logFromTrack, seenSmokeFromTrack, strangeSetup } from '../../../src/core/debrief/imported-log.ts';
import { type LogbookEntry, logbookEntry, logbookTotals } from '../../../src/core/debrief/logbook.ts';
import { leastSeparation, placeAt, type TimedTrack } from '../../../src/core/debrief/separation.ts';
import { debriefShip } from '../../../src/core/debrief/ship-debrief.ts';
import { smoothTrack } from '../../../src/core/debrief/smooth-track.ts';
import { thinLine } from '../../../src/core/debrief/thin-line.ts';
import { writeGpx } from '../../../src/core/tracks/gpx-write.ts';
import { readTracks } from '../../../src/core/tracks/track-read.ts';
import { windFromVector } from '../../../src/core/earth/wind-vector.ts';
import { flyWord, meanTrueWind, SITE, worldFor } from './flown-word.ts';

const flown = flyWord('HI', worldFor(41, { fixLosses: (_, atSeconds) => atSeconds > 100 && atSeconds < 112 }), { marked: true });

describe('a log given away and taken in again', () => {
  it('holds every fix as it was received, a gap as a gap, smoke as believed', () => {
    const { debrief, log, events } = flown;
    const track = exportedTrack(log, debrief.intervals);
    const fixes = events.filter(({ kind }) => kind === 'fixReceived');
    expect(track.points).toHaveLength(fixes.length);
    expect(track.segmentStarts).toHaveLength(2);
    const gap = track.segmentStarts[1]!;
    expect(track.points[gap]!.timeMilliseconds - track.points[gap - 1]!.timeMilliseconds).toBeGreaterThan(10_000);
    const smoking = track.points.filter(({ smoke }) => smoke === 'on').length;
    const smokeSeconds = debrief.intervals.reduce((sum, { onSeconds, offSeconds }) => sum + offSeconds - onSeconds, 0);
    expect(Math.abs(smoking - smokeSeconds)).toBeLessThan(1 + 2 * debrief.intervals.length);
    // Measured 0.6 s before it arrived.
    const first = fixes[0]!;
    expect(track.points[0]!.timeMilliseconds).toBe(Math.round(first.wallMilliseconds - 600));
  });

  it('comes back from a GPX file with its smoke, and its wind is found from the track alone', () => {
    const { debrief, log, truth } = flown;
    const read = readTracks(writeGpx([exportedTrack(log, debrief.intervals)], 'Quillwind'));
    if (!read.ok) throw new Error(read.reason);
    const [track] = read.value.tracks;
    const imported = logFromTrack(track!, strangeSetup(track!.name, 0, SITE, 3200));
    const seen = seenSmokeFromTrack(track!);
    expect(seen).toHaveLength(debrief.intervals.length);
    const again = debriefShip(imported, null, seen);
    const mean = meanTrueWind(truth, debrief.flight.firstSmokeSeconds!, debrief.flight.lastSmokeSeconds!);
    expect(
      Math.hypot(
        again.flight.windFound!.eastMetresPerSecond - mean.eastMetresPerSecond,
        again.flight.windFound!.northMetresPerSecond - mean.northMetresPerSecond,
      ),
    ).toBeLessThan(1.2);
    expect(windFromVector(again.flight.windFound!).speedMetresPerSecond).toBeGreaterThan(1);
    expect(again.strokeScores).toEqual([]);
    // With the plan at hand and as many smokes as strokes, the nth is the nth.
    const planned = debriefShip(logFromTrack(track!, flown.setup), null, seen);
    expect(planned.intervals.map(({ strokeIndex }) => strokeIndex)).toEqual(flown.setup.strokes.map((_, index) => index));
    planned.letterScores.forEach((letter) => expect(letter.shapeErrorMetres!).toBeLessThan(60));
  });
});

describe('separation', () => {
  const straight = (offsetMetres: number, zeroMilliseconds: number): TimedTrack => ({
    zeroMilliseconds,
    track: smoothTrack(
      Array.from({ length: 200 }, (_, second) => ({ atSeconds: second, eastMetres: 50 * second, northMetres: offsetMetres, accuracyMetres: 5 })),
    ),
  });

  it('is the least distance at one time on the wall clock, not of two lines', () => {
    // The second flies the same line 400 m beside, and 10 s behind: 500 m back.
    const found = leastSeparation(straight(0, 0), straight(400, 10_000), 0, 300_000)!;
    expect(found.separationMetres).toBeCloseTo(Math.hypot(400, 500), 0);
    expect(found.sharedSeconds).toBeGreaterThan(185);
    expect(found.sharedSeconds).toBeLessThan(192);
  });

  it('is not known where one of them has no position', () => {
    expect(leastSeparation(straight(0, 0), straight(0, 900_000), 0, 2_000_000)).toBeNull();
    expect(placeAt(straight(0, 0), -1)).toBeNull();
    const gapped: TimedTrack = {
      zeroMilliseconds: 0,
      track: smoothTrack(
        Array.from({ length: 100 }, (_, second) => ({
          atSeconds: second < 50 ? second : second + 40,
          eastMetres: 50 * second,
          northMetres: 0,
          accuracyMetres: 5,
        })),
      ),
    };
    expect(placeAt(gapped, 70_000)).toBeNull();
    expect(placeAt(gapped, 48_500)!.eastMetres).toBeCloseTo(2425, 0);
  });
});

describe('a line thinned for drawing', () => {
  it('leaves no point farther from the drawn line than the tolerance, and keeps both ends', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: -500, max: 500 }), fc.integer({ min: -500, max: 500 })), { minLength: 1, maxLength: 120 }),
        fc.integer({ min: 1, max: 200 }),
        (points, tolerance) => {
          const xs = Float64Array.from(points, ([x]) => x);
          const ys = Float64Array.from(points, ([, y]) => y);
          const kept = thinLine(xs, ys, 0, points.length - 1, tolerance);
          expect(kept[0]).toBe(0);
          expect(kept.at(-1)).toBe(points.length - 1);
          for (let at = 1; at < kept.length; at += 1) {
            expect(kept[at]!).toBeGreaterThan(kept[at - 1]!);
            for (let index = kept[at - 1]! + 1; index < kept[at]!; index += 1)
              expect(fromChord(points, kept[at - 1]!, kept[at]!, index)).toBeLessThanOrEqual(tolerance + 1e-9);
          }
        },
      ),
    );
  });

  it('needs two points for a straight line of ten thousand', () => {
    const xs = Float64Array.from({ length: 10_000 }, (_, index) => index);
    expect(thinLine(xs, xs, 0, 9_999, 1)).toEqual([0, 9_999]);
    expect(thinLine(xs, xs, 7, 7, 1)).toEqual([7]);
    expect(() => thinLine(xs, xs, 0, 1, 0)).toThrow(RangeError);
  });
});

function fromChord(points: readonly (readonly [number, number])[], first: number, last: number, index: number): number {
  const [ax, ay] = points[first]!;
  const [bx, by] = points[last]!;
  const [px, py] = points[index]!;
  const square = (bx - ax) ** 2 + (by - ay) ** 2;
  const share = square === 0 ? 0 : Math.max(0, Math.min(1, ((px - ax) * (bx - ax) + (py - ay) * (by - ay)) / square));
  return Math.hypot(px - ax - share * (bx - ax), py - ay - share * (by - ay));
}

describe('the logbook', () => {
  const of = { flightId: 'f', jobId: 'j', name: 'Regatta', text: 'HI', kind: 'flight' as const, startedAtMilliseconds: 0 };

  it('counts what was flown', () => {
    const entry = logbookEntry(
      flown.debrief,
      [
        { letterIndex: 0, atSeconds: 9, reads: 'well' },
        { letterIndex: 1, atSeconds: 9, reads: 'no' },
      ],
      of,
    );
    expect(entry).toMatchObject({ shipName: 'Lead', strokesPlanned: flown.setup.strokes.length, complete: true, read: 'in part' });
    // The gap of 12 s is not counted as flown.
    expect(Math.abs(entry.flownSeconds - (flown.simulation.atSeconds - 13))).toBeLessThan(4);
    expect(logbookEntry(flown.debrief, [], of).read).toBe('not rated');
    expect(
      logbookEntry(
        flown.debrief,
        [
          { letterIndex: 0, atSeconds: 9, reads: 'no' },
          { letterIndex: 0, atSeconds: 5, reads: 'hardly' },
        ],
        of,
      ).read,
    ).toBe('yes');
  });

  it('adds up', () => {
    const entry = (changes: Partial<LogbookEntry>): LogbookEntry => ({
      ...logbookEntry(flown.debrief, [], of),
      flownSeconds: 100,
      oilKilograms: 5,
      ...changes,
    });
    expect(logbookTotals([entry({ read: 'yes' }), entry({ complete: false, read: 'in part' }), entry({})])).toEqual({
      flights: 3,
      flownSeconds: 300,
      oilKilograms: 15,
      wordsComplete: 2,
      wordsRead: 1,
      wordsRated: 2,
    });
  });
});
