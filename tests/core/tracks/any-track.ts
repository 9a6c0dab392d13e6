import { fc } from '../../property.ts';
import type { HeightsAbove, Track, TrackPoint } from '../../../src/core/tracks/track.ts';

/** Any flight a recorder could have made: years 2010 to 2090, anywhere, pauses under half an hour, to the millisecond. */
export function anyTrack(heightsAbove: HeightsAbove, withSegments: boolean): fc.Arbitrary<Track> {
  const step = fc.record({
    stepMilliseconds: fc.oneof(fc.constantFrom(1000, 200, 1), fc.integer({ min: 1, max: 1_700_000 })),
    latitudeDegrees: fc.integer({ min: -900_000_000, max: 900_000_000 }).map((value) => value / 1e7),
    longitudeDegrees: fc.integer({ min: -1_800_000_000, max: 1_799_999_999 }).map((value) => value / 1e7),
    heightMetres: fc.option(fc.integer({ min: -400, max: 20_000 }), { nil: null }),
    smoke: fc.constantFrom('on' as const, 'off' as const),
    starts: fc.boolean(),
  });
  return fc
    .record({
      startMilliseconds: fc.integer({ min: Date.UTC(2010, 0, 2), max: Date.UTC(2079, 11, 31) }),
      name: fc.string({ unit: 'grapheme-ascii', minLength: 1, maxLength: 20 }).map(
        (text) =>
          text
            .replace(/[^A-Za-z0-9 ]/g, '')
            .replace(/ +/g, ' ')
            .trim() || 'Lead',
      ),
      steps: fc.array(step, { minLength: 2, maxLength: 40 }),
      smokeKnown: fc.boolean(),
    })
    .map(({ startMilliseconds, name, steps, smokeKnown }) => {
      let timeMilliseconds = startMilliseconds;
      const points: TrackPoint[] = [];
      const segmentStarts = [0];
      steps.forEach(({ stepMilliseconds, starts, smoke, ...place }, index) => {
        timeMilliseconds += stepMilliseconds;
        points.push({ timeMilliseconds, ...place, smoke: smokeKnown ? smoke : null });
        if (withSegments && starts && index > 0) segmentStarts.push(index);
      });
      return { name, heightsAbove, points, segmentStarts };
    });
}
