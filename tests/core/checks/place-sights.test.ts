import { expect, it } from 'vitest';
import { placeSights, weighed } from '../../../src/core/checks/place-sights.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import type { Job } from '../../../src/core/job/job.ts';
import type { PlannedJob } from '../../../src/core/plan/planned-job.ts';
import { planJob } from '../../../src/core/plan/plan-job.ts';
import { readingOf } from '../../../src/core/sky/reading-of.ts';
import { degreesFromRadians } from '../../../src/core/units/angle.ts';

const FAR = { name: 'Town', latitudeDegrees: 43.8721, longitudeDegrees: -74.55, elevationFeet: null, weight: 1 };

function sightsOf(job: Job) {
  const made = planJob(job);
  if (!made.ok) throw new Error(made.problem.kind);
  const planned: PlannedJob = { ...made.value, job };
  return placeSights(planned, readingOf(made.value, null));
}

it('sees the word at the job\u2019s elevation and facing from the site alone', () => {
  const [site, ...more] = sightsOf(DEMO_JOB);
  expect(more).toHaveLength(0);
  expect(degreesFromRadians(site!.look.elevationRadians)).toBeCloseTo(DEMO_JOB.viewElevationDegrees, 1);
  expect(degreesFromRadians(site!.look.azimuthRadians)).toBeCloseTo(DEMO_JOB.facingDegreesTrue, 1);
  expect(site!.turnRadians).toBeCloseTo(0, 3);
  expect(site!.endedBy).toBe('as the whole');
});

it('hangs the word between two places of equal weight: each sees it lean, to opposite sides', () => {
  const sights = sightsOf({ ...DEMO_JOB, viewingPlaces: [FAR] });
  expect(sights.map(({ share }) => share)).toEqual([0.5, 0.5]);
  const [site, town] = sights;
  expect(Math.sign(site!.turnRadians)).toBe(-Math.sign(town!.turnRadians));
  // The lighter a place, the farther from its wish the word hangs.
  const weighted = sightsOf({ ...DEMO_JOB, viewingPlaces: [{ ...FAR, weight: 9 }] });
  expect(Math.abs(weighted[1]!.turnRadians)).toBeLessThan(Math.abs(town!.turnRadians));
  expect(weighed(sights, ({ share }) => share)).toBeCloseTo(0.5, 9);
});

it('names a place from which the letters never show large enough', () => {
  const distant = sightsOf({ ...DEMO_JOB, viewingPlaces: [{ ...FAR, longitudeDegrees: -75.3, weight: 0 }] });
  expect(distant[1]?.endedBy).toBe('never large enough');
});
