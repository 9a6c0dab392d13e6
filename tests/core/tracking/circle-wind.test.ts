import { describe, expect, it } from 'vitest';
import { circleMisfit, circleWind } from '../../../src/core/tracking/circle-wind.ts';
import { STATE, STATE_SIZE } from '../../../src/core/tracking/estimate.ts';
import type { Motion } from '../../../src/core/tracking/propagate.ts';
import { emptyTracker, type Tracker, tracked } from '../../../src/core/tracking/tracker.ts';
import { normalFrom, uniformFrom } from '../../flight/random.ts';

const turn = (count: number, shareOfCircle: number) =>
  Array.from({ length: count }, (_, index) => {
    const heading = (2 * Math.PI * shareOfCircle * index) / count;
    return { atSeconds: index, eastMetresPerSecond: 8 + 54 * Math.cos(heading), northMetresPerSecond: -3 + 54 * Math.sin(heading) };
  });

describe('circleWind', () => {
  it('finds wind and airspeed of a full turn exactly', () => {
    const found = circleWind(turn(40, 1), 54)!;
    expect(found.wind.eastMetresPerSecond).toBeCloseTo(8, 9);
    expect(found.wind.northMetresPerSecond).toBeCloseTo(-3, 9);
    expect(found.airspeedMetresPerSecond).toBeCloseTo(54, 9);
  });

  it('says nothing of half a turn or of few velocities', () => {
    expect(circleWind(turn(40, 0.5), 54)).toBeNull();
    expect(circleWind(turn(19, 1), 54)).toBeNull();
  });
});

describe('the filter beside the circle', () => {
  it('takes the wind of a full turn when its own was 50 kt wrong and sure of it', () => {
    const motion: Motion = {
      pilot: { reactionSeconds: 0.4, rollRateRadiansPerSecond: 0.5 },
      commands: [{ fromSeconds: -10, sense: 'left', directionRadians: 3, bankRadians: 0.5, startsManoeuvre: false }],
      noise: { direction: 1.5e-4, turnRateSteady: 6e-4, turnRateChanging: 1.2e-2, airspeed: 0.06, wind: 0.004 },
      datumAtSeconds: null,
      plannedAirspeedMetresPerSecond: 54,
    };
    const normal = normalFrom(uniformFrom(5));
    let tracker: Tracker = emptyTracker;
    let east = 0;
    let north = 0;
    for (let second = 0; second < 80; second += 1) {
      const heading = 0.1 * second;
      east += 54 * Math.cos(heading) + 8;
      north += 54 * Math.sin(heading) - 3;
      const sighting = { measuredAtSeconds: second, eastMetres: east + 3 * normal(), northMetres: north + 3 * normal(), accuracyMetres: 7, velocity: null };
      const priors = { wind: { eastMetresPerSecond: -18, northMetresPerSecond: -3 }, windSigmaMetresPerSecond: 0.3, airspeedMetresPerSecond: 54 };
      tracker = tracked(tracker, sighting, { ...motion, commands: [{ ...motion.commands[0]!, directionRadians: heading + 2 }] }, priors).tracker;
    }
    const { mean, covariance } = tracker.estimate!;
    expect(Math.hypot(mean[STATE.windEast]! - 8, mean[STATE.windNorth]! + 3)).toBeLessThan(2.5);
    expect(covariance.length).toBe(STATE_SIZE * STATE_SIZE);
  });
});

describe('circleMisfit', () => {
  it('is nothing for the circle that was flown, and 3.5 m/s in the worked example', () => {
    expect(circleMisfit(turn(40, 1), { wind: { eastMetresPerSecond: 8, northMetresPerSecond: -3 }, airspeedMetresPerSecond: 54 })).toBeCloseTo(0, 9);
    const seen = [53, 46].map((speed) => ({ atSeconds: 0, eastMetresPerSecond: speed, northMetresPerSecond: 0 }));
    const calm = { wind: { eastMetresPerSecond: 0, northMetresPerSecond: 0 }, airspeedMetresPerSecond: 50 };
    expect(circleMisfit(seen, calm)).toBeCloseTo(Math.sqrt((9 + 16) / 2), 9);
  });
});
