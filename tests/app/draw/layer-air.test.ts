import { describe, expect, it } from 'vitest';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import { layerAir } from '../../../src/app/draw/layer-air.ts';

const at = (altitudeFeet: number, temperatureCelsius: number | null, winds = DEMO_JOB.winds) =>
  layerAir({ ...DEMO_JOB, layer: { altitudeFeet, temperatureCelsius }, winds });

describe('the airspeeds of a layer', () => {
  it('are the published ones in standard air: 120 kt calibrated at 10,000 ft is 139.4 kt true', () => {
    // The worked value of core/earth/airspeed.ts, which its own test holds against published tables.
    const air = at(10_000, null, []);
    expect(air.from).toBe('standard air');
    expect(air.celsius).toBeCloseTo(-4.8, 1);
    expect(air.trueKnots(120)).toBeCloseTo(139.38, 1);
    expect(air.calibratedKnots(air.trueKnots(120))).toBeCloseTo(120, 9);
  });

  it('take the temperature as entered, else by the winds, and are faster in warm air', () => {
    expect(at(10_500, 20).from).toBe('as entered');
    expect(at(10_500, null).from).toBe('by the winds');
    expect(at(10_500, null).celsius).toBeCloseTo(2, 0);
    expect(at(10_500, 20).trueKnots(100)).toBeGreaterThan(at(10_500, -20).trueKnots(100) + 5);
  });
});
