import { describe, expect, it } from 'vitest';
import { flightTimes } from '../../../src/core/debrief/flight-time.ts';
import { positionsFromEvents, positionsFromTrack } from '../../../src/core/debrief/flown-position.ts';
import type { FlightEvent } from '../../../src/core/guidance/flight-event.ts';
import { setupFor } from './flown-word.ts';

describe('positions', () => {
  it('are timed by a believable stamp, else by arrival less the assumed latency', () => {
    const setup = setupFor('I');
    const fix = (second: number, stampMilliseconds: number | null): FlightEvent => ({
      kind: 'fixReceived',
      atSeconds: second,
      wallMilliseconds: 1e12 + second * 1000,
      fix: {
        latitudeDegrees: 43.8 + second * 1e-4,
        longitudeDegrees: -74.4,
        accuracyMetres: 5,
        altitudeMetres: null,
        groundSpeedMetresPerSecond: null,
        trackDegrees: null,
        stampMilliseconds,
      },
    });
    const timed = (events: readonly FlightEvent[]): number[] => positionsFromEvents(events, flightTimes(events), setup).map(({ atSeconds }) => atSeconds);
    expect(timed([fix(1, null), fix(2, null)])).toEqual([expect.closeTo(0.4, 9), expect.closeTo(1.4, 9)]);
    // The first stamp has none before it to be steady with.
    expect(timed([fix(1, 1e12 + 100), fix(2, 1e12 + 1100)])).toEqual([expect.closeTo(0.4, 9), expect.closeTo(1.1, 6)]);
    // Stamps of the year 2001 are not believed.
    expect(timed([fix(1, 978_307_201_000), fix(2, 978_307_202_000)])).toEqual([expect.closeTo(0.4, 9), expect.closeTo(1.4, 9)]);
  });

  it('leave out what is said twice', () => {
    const point = { latitudeDegrees: 1, longitudeDegrees: 2, heightMetres: null, smoke: null };
    const points = [0, 1, 2].map((second) => ({ ...point, timeMilliseconds: second * 1000, latitudeDegrees: second === 2 ? 1.001 : 1 }));
    expect(
      positionsFromTrack(
        { name: 'x', heightsAbove: 'sea', points, segmentStarts: [0] },
        { latitudeDegrees: 1, longitudeDegrees: 2, elevationMetres: 0 },
        0,
        0,
      ).map(({ atSeconds }) => atSeconds),
    ).toEqual([0, 2]);
  });
});
