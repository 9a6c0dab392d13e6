import { describe, expect, it } from 'vitest';
import { STATE, STATE_SIZE, variance } from '../../../src/core/tracking/estimate.ts';
import { type Motion, propagate } from '../../../src/core/tracking/propagate.ts';
import { emptyTracker, type FixVerdict, type Sighting, type Tracker, type TrackerPriors, tracked } from '../../../src/core/tracking/tracker.ts';

const AIRSPEED = 54;
const priors: TrackerPriors = {
  wind: { eastMetresPerSecond: 5, northMetresPerSecond: 0 },
  windSigmaMetresPerSecond: 5,
  airspeedMetresPerSecond: AIRSPEED,
  usualAirspeedShare: 0.04,
};
const motion: Motion = {
  pilot: { reactionSeconds: 0.4, rollRateRadiansPerSecond: 0.5 },
  commands: [],
  noise: { direction: 1.5e-4, turnRateSteady: 6e-4, turnRateChanging: 1.2e-2, airspeed: 0.06, wind: 0.004 },
  datumAtSeconds: null,
  plannedAirspeedMetresPerSecond: AIRSPEED,
};

/** Eastwards at the airspeed plus a wind, a fix a second. */
const sighting = (second: number, changes: Partial<Sighting> = {}): Sighting => ({
  measuredAtSeconds: second,
  eastMetres: (AIRSPEED + 5) * second,
  northMetres: 0,
  accuracyMetres: 7,
  velocity: null,
  ...changes,
});

function run(
  sightings: readonly Sighting[],
  from: Tracker = emptyTracker,
  how: Motion = motion,
  before: TrackerPriors = priors,
): { tracker: Tracker; verdicts: FixVerdict[] } {
  let tracker = from;
  const verdicts = sightings.map((one) => {
    const step = tracked(tracker, one, how, before);
    tracker = step.tracker;
    return step.verdict;
  });
  return { tracker, verdicts };
}

const seconds = (from: number, count: number): number[] => Array.from({ length: count }, (_, index) => from + index);

describe('the fix gate', () => {
  it('begins with two fixes and uses every good one after', () => {
    expect(run(seconds(0, 5).map((second) => sighting(second))).verdicts).toEqual(['waiting', 'used', 'used', 'used', 'used']);
  });

  it.each([1, 5, 30])('keeps out a jump of 3 km that lasts %i fixes', (count) => {
    const good = run(seconds(0, 10).map((second) => sighting(second)));
    const off = seconds(10, count).map((second) => sighting(second, { northMetres: 3000 }));
    const after = run(off.slice(0, Math.min(count, 4)), good.tracker);
    expect(new Set(after.verdicts)).toEqual(new Set(['jump']));
    expect(after.tracker.estimate).toBe(good.tracker.estimate);
  });

  it('believes the new place after five fixes that agree, and keeps wind and drift', () => {
    const good = run(seconds(0, 10).map((second) => sighting(second)));
    const jumped = run(
      seconds(10, 6).map((second) => sighting(second, { northMetres: 3000 })),
      good.tracker,
    );
    expect(jumped.verdicts).toEqual(['jump', 'jump', 'jump', 'jump', 'used', 'used']);
    expect(jumped.tracker.estimate!.mean[STATE.north]).toBeCloseTo(3000, 0);
    expect(jumped.tracker.estimate!.mean[STATE.windEast]).toBeCloseTo(good.tracker.estimate!.mean[STATE.windEast]!, 0);
  });

  it('passes by one outlier', () => {
    const { verdicts } = run([...seconds(0, 10).map((second) => sighting(second)), sighting(10, { northMetres: 3000 }), sighting(11)]);
    expect(verdicts.slice(-2)).toEqual(['jump', 'used']);
  });

  it.each([
    ['imprecise', sighting(10, { accuracyMetres: 3000 })],
    ['imprecise', sighting(10, { accuracyMetres: NaN })],
    ['frozen', sighting(10, { eastMetres: (AIRSPEED + 5) * 9 })],
    ['out-of-order', sighting(8.5)],
    ['out-of-order', sighting(9)],
  ] as const)('calls a fix %s and changes nothing by it', (verdict, bad) => {
    const good = run(seconds(0, 10).map((second) => sighting(second)));
    const after = run([bad], good.tracker);
    expect(after.verdicts).toEqual([verdict]);
    expect(after.tracker.estimate).toBe(good.tracker.estimate);
  });

  it('says too slow for a receiver that stands still', () => {
    const { tracker, verdicts } = run(seconds(0, 4).map((second) => sighting(second, { eastMetres: second })));
    expect(verdicts).toEqual(['waiting', 'too-slow', 'too-slow', 'too-slow']);
    expect(tracker.estimate).toBeNull();
  });

  it('starts again from two fixes after a gap of 30 s', () => {
    const good = run(seconds(0, 10).map((second) => sighting(second)));
    const after = run([sighting(40), sighting(41)], good.tracker);
    expect(after.verdicts).toEqual(['waiting', 'used']);
    expect(after.tracker.estimate!.mean[STATE.windEast]).toBeCloseTo(5, 0);
  });
});

describe('the filter', () => {
  it('makes the drift exactly zero at the datum and the integral of the wind after it', () => {
    const { tracker } = run(seconds(0, 10).map((second) => sighting(second)));
    const atDatum = propagate(tracker.estimate!, 12.34, { ...motion, datumAtSeconds: 12.34 });
    expect([atDatum.mean[STATE.driftEast], atDatum.mean[STATE.driftNorth], variance(atDatum, STATE.driftEast)]).toEqual([0, 0, 0]);
    const later = propagate(tracker.estimate!, 22.34, { ...motion, datumAtSeconds: 12.34 });
    expect(later.mean[STATE.driftEast]).toBeCloseTo(10 * tracker.estimate!.mean[STATE.windEast]!, 6);
    const row = STATE.driftEast * STATE_SIZE;
    // What will be learned of the wind corrects the drift: the two go together by ten seconds of wind.
    expect(later.covariance[row + STATE.windEast]! / variance(later, STATE.windEast)).toBeGreaterThan(9);
  });

  it('keeps the covariance symmetric with positive variances over 300 fixes', () => {
    const { tracker } = run(
      seconds(0, 300).map((second) => sighting(second, { northMetres: 3 * Math.sin(second * 7) })),
      emptyTracker,
      { ...motion, datumAtSeconds: 20 },
    );
    const { covariance } = tracker.estimate!;
    for (let row = 0; row < STATE_SIZE; row += 1) {
      expect(covariance[row * STATE_SIZE + row]).toBeGreaterThan(0);
      for (let column = 0; column < row; column += 1) {
        const scale = Math.sqrt(covariance[row * STATE_SIZE + row]! * covariance[column * STATE_SIZE + column]!);
        expect(Math.abs(covariance[row * STATE_SIZE + column]! - covariance[column * STATE_SIZE + row]!) / scale).toBeLessThan(1e-9);
      }
    }
  });

  it.each([1.05, 0.95])('learns that an aircraft is always flown at %f of its airspeed, and takes less of that for wind', (share) => {
    const without: TrackerPriors = { ...priors, usualAirspeedShare: 0 };
    // A turn of 3 degrees a second for two circles, then straight, in the wind of the forecast.
    const flown = circled(AIRSPEED * share, 240);
    const wrongBy = (before: TrackerPriors): number => {
      const { mean } = run(flown, emptyTracker, motion, before).tracker.estimate!;
      return Math.hypot(mean[STATE.windEast]! - 5, mean[STATE.windNorth]!);
    };
    const { mean } = run(flown).tracker.estimate!;
    expect(Math.abs(mean[STATE.usualAirspeed]! / (AIRSPEED * share) - 1)).toBeLessThan(0.02);
    expect(wrongBy(priors)).toBeLessThan(0.8 * wrongBy(without));
  });
});

/** Two circles of two minutes at an airspeed in a wind of 5 m/s towards east, then 120 s eastwards. */
function circled(airspeed: number, turningSeconds: number): Sighting[] {
  const rate = (3 * Math.PI) / 180;
  let [east, north] = [0, 0];
  return seconds(0, turningSeconds + 120).map((second) => {
    const direction = rate * Math.min(second, turningSeconds);
    const here = sighting(second, { eastMetres: east, northMetres: north });
    east += airspeed * Math.cos(direction + (second < turningSeconds ? rate / 2 : 0)) + 5;
    north += airspeed * Math.sin(direction + (second < turningSeconds ? rate / 2 : 0));
    return here;
  });
}
