import { describe, expect, test } from 'vitest';
import { DEMO_JOB } from '../../../src/core/formats/demo-job.ts';
import type { Job } from '../../../src/core/formats/job.ts';
import { airPathEnd } from '../../../src/core/planning/air-path.ts';
import { letterFromAir } from '../../../src/core/planning/letter-frame.ts';
import { movedPlan } from '../../../src/core/planning/moved-plan.ts';
import { siteFromAir } from '../../../src/core/planning/place.ts';
import { type JobPlan, planJob } from '../../../src/core/planning/plan-job.ts';

function planned(job: Job): JobPlan {
  const result = planJob(job);
  if (!result.ok) throw new Error(JSON.stringify(result.problem));
  return result.value;
}

function problemOf(job: Job): string {
  const result = planJob(job);
  return result.ok ? 'planned' : result.problem.kind;
}

describe('a job planned', () => {
  const { plan, readSeconds, air, smallest } = planned(DEMO_JOB);

  test('hangs at the wanted elevation and azimuth when its last stroke ends', () => {
    const middle = siteFromAir(plan.frame.middle, air.wind, readSeconds);
    const degrees = (radians: number): number => (radians * 180) / Math.PI;
    expect(degrees(Math.atan2(air.layerAboveSiteMetres, Math.hypot(middle.eastMetres, middle.northMetres)))).toBeCloseTo(35, 9);
    expect(degrees(Math.atan2(middle.eastMetres, middle.northMetres))).toBeCloseTo(340 - 360, 9);
    expect(readSeconds).toBe(plan.durationSeconds);
  });

  test('keeps its strokes within the letters around its own middle', () => {
    for (const leg of plan.ships[0]?.legs ?? []) {
      if (leg.kind !== 'smoke') continue;
      for (const point of [leg.path.start, airPathEnd(leg.path)]) {
        const { xMetres, yMetres } = letterFromAir(point, plan.frame);
        expect(Math.abs(xMetres)).toBeLessThanOrEqual(plan.textWidthMetres / 2 + 1e-6);
        expect(Math.abs(yMetres)).toBeLessThanOrEqual(plan.letterHeightMetres / 2 + 1e-6);
      }
    }
  });

  test('is the same plan again, to the last bit', () => expect(planned(structuredClone(DEMO_JOB)).plan).toEqual(plan));

  test('says which letter limits the size', () => {
    expect(smallest?.character).toBe('S');
    expect(smallest?.heightMetres).toBeLessThan(plan.letterHeightMetres);
    const larger = planned({ ...DEMO_JOB, letters: { ...DEMO_JOB.letters, heightFeet: 8000 } });
    expect(larger.smallest?.heightMetres).toBeCloseTo(smallest?.heightMetres ?? Number.NaN, 3);
  });
});

describe('a job without a plan says why', () => {
  test.each([
    ['text', { ...DEMO_JOB, text: '\u4e2d' }],
    ['text', { ...DEMO_JOB, text: ' ' }],
    ['text', { ...DEMO_JOB, text: 'A'.repeat(60) }],
    ['too-small', { ...DEMO_JOB, letters: { ...DEMO_JOB.letters, heightFeet: 1000 } }],
    ['no-ship', { ...DEMO_JOB, ships: [] }],
  ])('%s', (kind, job) => expect(problemOf(job)).toBe(kind));

  test('but a layer without wind is planned in calm air and said to be', () => {
    const value = planned({ ...DEMO_JOB, winds: [] });
    expect(value.air.windMissing).toMatch(/no winds/);
    expect(value.air.wind).toEqual({ eastMetresPerSecond: 0, northMetresPerSecond: 0 });
  });
});

test('moving a plan moves every leg by the same and changes nothing else', () => {
  const { plan } = planned(DEMO_JOB);
  const moved = movedPlan(plan, { airEastMetres: plan.frame.middle.airEastMetres + 500, airNorthMetres: plan.frame.middle.airNorthMetres - 200 });
  for (const [index, leg] of (plan.ships[0]?.legs ?? []).entries()) {
    const other = moved.ships[0]?.legs[index];
    expect(other?.path.start.airEastMetres).toBeCloseTo(leg.path.start.airEastMetres + 500, 9);
    expect(other?.path.start.airNorthMetres).toBeCloseTo(leg.path.start.airNorthMetres - 200, 9);
    expect(other?.path.segments).toBe(leg.path.segments);
  }
  expect(moved.durationSeconds).toBe(plan.durationSeconds);
});
