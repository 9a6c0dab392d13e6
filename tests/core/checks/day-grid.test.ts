import { describe, expect, test } from 'vitest';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import type { Job } from '../../../src/core/job/job.ts';
import { planJob } from '../../../src/core/plan/plan-job.ts';
import { dayAxes, dayRequest, dayRow } from '../../../src/core/checks/day-grid.ts';
import type { PlannedJob } from '../../../src/core/plan/planned-job.ts';
import { readingOf } from '../../../src/core/sky/reading-of.ts';

function rowOf(job: Job, facingDegrees: number) {
  const made = planJob(job);
  if (!made.ok) throw new Error('the demo job must plan');
  const planned: PlannedJob = { job, ...made.value };
  return dayRow(dayRequest(planned, readingOf(planned, null)), facingDegrees, [Date.parse(job.readTime)])[0];
}

const facing = (crowdFacingDegreesTrue: number | null): Job => ({ ...DEMO_JOB, site: { ...DEMO_JOB.site, crowdFacingDegreesTrue } });

describe('the day around a read time', () => {
  test('counts how far the crowd must turn from where it faces of itself, and nothing where it does not matter', () => {
    const [without, ahead, behind] = [rowOf(facing(null), 345), rowOf(facing(345), 345), rowOf(facing(165), 345)];
    expect(without?.turnRadians).toBeNull();
    expect(ahead?.turnRadians).toBeCloseTo(0, 9);
    expect(behind?.turnRadians).toBeCloseTo(Math.PI, 9);
    // All of the crowd's 20 points of 100.
    expect((ahead?.score ?? 0) - (behind?.score ?? 0)).toBeCloseTo(20, 6);
  });

  test.each([
    { where: 'polar day', latitudeDegrees: 78, readTime: '2027-06-19T12:00:00Z' },
    { where: 'polar night', latitudeDegrees: 78, readTime: '2027-12-21T12:00:00Z' },
  ])('has 24 hours in a $where', ({ latitudeDegrees, readTime }) => {
    const axes = dayAxes({ ...DEMO_JOB, readTime, site: { ...DEMO_JOB.site, latitudeDegrees } }, 60);
    expect(axes.readTimesMilliseconds.length).toBeGreaterThanOrEqual(24);
    expect(axes.readTimesMilliseconds.every(Number.isFinite)).toBe(true);
  });
});
