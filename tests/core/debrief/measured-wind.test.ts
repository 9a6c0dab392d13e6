import { describe, expect, test } from 'vitest';
import { measuredWind, measuredWindRow, windsWithMeasured } from '../../../src/core/debrief/measured-wind.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import { jobAir } from '../../../src/core/job/job-air.ts';
import { windProfileFromJob } from '../../../src/core/job/job-winds.ts';
import type { JobWind } from '../../../src/core/job/job.ts';
import { flownDemo } from '../../../e2e/flown-log.ts';

const row = (altitudeFeet: number, temperatureCelsius: number | null = null): JobWind => ({
  altitudeFeet,
  fromDegreesTrue: 90,
  speedKnots: 10,
  temperatureCelsius,
});

describe('a measured wind as a row', () => {
  test('in whole tens of feet, degrees and tenths of a knot', () => {
    expect(measuredWindRow({ heightMetres: 3_200.4, wind: { eastMetresPerSecond: 6.2, northMetresPerSecond: 0 }, sigmaMetresPerSecond: 0.5 })).toEqual({
      altitudeFeet: 10_500,
      fromDegreesTrue: 270,
      speedKnots: 12.1,
      temperatureCelsius: null,
    });
  });

  test('light and variable only when it is both under 5 kt and lost in its own doubt', () => {
    const weak = { heightMetres: 3_000, wind: { eastMetresPerSecond: 0.9, northMetresPerSecond: 0 } };
    expect(measuredWindRow({ ...weak, sigmaMetresPerSecond: 0.6 }).fromDegreesTrue).toBeNull();
    expect(measuredWindRow({ ...weak, sigmaMetresPerSecond: 0.2 })).toMatchObject({ fromDegreesTrue: 270, speedKnots: 1.7 });
  });

  test('takes the place of rows close to it, keeps their temperature, and the rows make a profile again', () => {
    const winds = windsWithMeasured([row(12_000, -1), row(10_300, 2), row(9_000)], row(10_500));
    expect(winds?.map(({ altitudeFeet }) => altitudeFeet)).toEqual([9_000, 10_500, 12_000]);
    expect(winds?.[1]?.temperatureCelsius).toBe(2);
    expect(windProfileFromJob(winds ?? []).ok).toBe(true);
  });

  test('is not forced into a job that is full', () => {
    const full = Array.from({ length: 60 }, (_, index) => row(1_000 * index));
    expect(windsWithMeasured(full, row(500))).toBeNull();
    expect(windsWithMeasured(full, row(1_100))).toHaveLength(60);
  });

  test('of a flight whose truth is known: within 3 kt of it, at the height flown', () => {
    const flown = flownDemo(11);
    const measured = measuredWind(flown.log, flown.debrief.flight);
    // The simulated air blows 4 m/s more from the east and 3 m/s more from the south than the forecast.
    const { wind: forecast } = jobAir(DEMO_JOB);
    const off = Math.hypot(
      measured!.wind.eastMetresPerSecond - forecast.eastMetresPerSecond + 4,
      measured!.wind.northMetresPerSecond - forecast.northMetresPerSecond - 3,
    );
    expect(off).toBeLessThan(1.5);
    expect(measuredWindRow(measured!).altitudeFeet).toBe(DEMO_JOB.layer.altitudeFeet);
  });
});
