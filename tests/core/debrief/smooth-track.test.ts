import { fc } from '../../property.ts';
import { describe, expect, it } from 'vitest';
import type { FlownPosition } from '../../../src/core/debrief/flown-position.ts';
import { smoothTrack } from '../../../src/core/debrief/smooth-track.ts';
import { normalFrom, uniformFrom } from '../../flight/random.ts';

/** A circle of 300 m flown at 54 m/s in air that moves, then a straight leg. */
function racetrack(rateHz: number, noiseMetres: number, seed = 1): { positions: FlownPosition[]; velocity: (atSeconds: number) => readonly [number, number] } {
  const normal = normalFrom(uniformFrom(seed));
  const place = (t: number): readonly [number, number] => {
    const angle = Math.min(t, 60) * 0.18;
    const beyond = Math.max(0, t - 60) * 54;
    return [300 * Math.sin(angle) + beyond * Math.cos(60 * 0.18) + 6 * t, 300 * (1 - Math.cos(angle)) + beyond * Math.sin(60 * 0.18) + 3 * t];
  };
  const positions = Array.from({ length: 120 * rateHz }, (_, index) => {
    const atSeconds = index / rateHz;
    const [east, north] = place(atSeconds);
    return { atSeconds, eastMetres: east + noiseMetres * normal(), northMetres: north + noiseMetres * normal(), accuracyMetres: 7 };
  });
  return {
    positions,
    velocity: (t) => {
      const h = 0.005;
      return [(place(t + h)[0] - place(t - h)[0]) / (2 * h), (place(t + h)[1] - place(t - h)[1]) / (2 * h)];
    },
  };
}

describe('smoothing a track', () => {
  it('reproduces a straight line at constant speed', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -80, max: 80, noNaN: true }),
        fc.double({ min: -80, max: 80, noNaN: true }),
        fc.array(fc.double({ min: 0.1, max: 4, noNaN: true }), { minLength: 3, maxLength: 60 }),
        (east, north, steps) => {
          let atSeconds = 0;
          const positions = steps.map((step) => ({
            atSeconds: (atSeconds += step),
            eastMetres: 1000 + east * atSeconds,
            northMetres: north * atSeconds - 500,
            accuracyMetres: 5,
          }));
          const track = smoothTrack(positions);
          expect(track.rejectedCount).toBe(0);
          track.atSeconds.forEach((time, index) => {
            // The filter begins with no speed, 100 m/s give or take: that much of it is left at the shortest tracks.
            expect(Math.abs(track.eastMetres[index]! - (1000 + east * time))).toBeLessThan(2);
            expect(Math.abs(track.northMetres[index]! - (north * time - 500))).toBeLessThan(2);
          });
        },
      ),
      { numRuns: 100 },
    );
  });

  it('finds the velocity of a turn within 1.2 m/s from fixes of 3 m once a second', () => {
    const { positions, velocity } = racetrack(1, 3);
    const track = smoothTrack(positions);
    let squares = 0;
    for (let index = 3; index < track.atSeconds.length - 3; index += 1) {
      const [east, north] = velocity(track.atSeconds[index]!);
      squares += (track.eastMetresPerSecond[index]! - east) ** 2 + (track.northMetresPerSecond[index]! - north) ** 2;
    }
    const rms = Math.sqrt(squares / (2 * (track.atSeconds.length - 6)));
    expect(rms).toBeGreaterThan(0.3);
    expect(rms).toBeLessThan(1.2);
    // What it says of its own error is what it makes.
    expect(track.velocitySigmaMetresPerSecond[60]!).toBeGreaterThan(rms / 1.6);
    expect(track.velocitySigmaMetresPerSecond[60]!).toBeLessThan(rms * 1.6);
  });

  it('leaves out a jump of a few fixes and goes on after a true one', () => {
    const { positions } = racetrack(1, 1);
    const jumped = positions.map((position, index) => (index >= 40 && index < 43 ? { ...position, eastMetres: position.eastMetres + 3000 } : position));
    const track = smoothTrack(jumped);
    expect(track.rejectedCount).toBe(3);
    expect(track.atSeconds).toHaveLength(117);
    expect(track.segmentStarts).toEqual([0]);
    const moved = smoothTrack(positions.map((position, index) => (index >= 40 ? { ...position, eastMetres: position.eastMetres + 3000 } : position)));
    expect(moved.rejectedCount).toBe(0);
    expect(moved.segmentStarts).toEqual([0, 40]);
    expect(moved.eastMetres[50]! - smoothTrack(positions).eastMetres[50]!).toBeCloseTo(3000, -1);
  });

  it('begins anew after a gap', () => {
    const { positions } = racetrack(1, 1);
    expect(smoothTrack(positions.filter((_, index) => index < 30 || index > 45)).segmentStarts).toEqual([0, 30]);
    expect(smoothTrack([]).atSeconds).toHaveLength(0);
    expect(smoothTrack(positions.slice(0, 1)).eastMetres[0]).toBe(positions[0]!.eastMetres);
  });
});
