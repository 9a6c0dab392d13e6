import { describe, expect, test } from 'vitest';
import { isGlare } from '../../../src/core/earth/glare.ts';
import { sunAt } from '../../../src/core/earth/sun.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import type { Job } from '../../../src/core/job/job.ts';
import { airPathEnd } from '../../../src/core/paths/air-path.ts';
import { letterTimes } from '../../../src/core/plan/budget.ts';
import { letterFromAir } from '../../../src/core/paths/letter-frame.ts';
import { movedPlan } from '../../../src/core/plan/moved-plan.ts';
import { siteFromAir } from '../../../src/core/plan/place.ts';
import { type JobPlan, planJob } from '../../../src/core/plan/plan-job.ts';
import { bearingFromDirection } from '../../../src/core/units/angle.ts';

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

describe('what the job asks of the order', () => {
  const withOptions = (job: Job, options: Partial<Job['options']>): Job => ({ ...job, options: { ...job.options, ...options } });

  test('each ship writes a height step above the one before', () => {
    const [lead] = DEMO_JOB.ships;
    const three = { ...DEMO_JOB, ships: [lead!, { ...lead!, name: 'Two' }, { ...lead!, name: 'Three' }] };
    expect(planned(three).plan.ships.map(({ heightStepMetres }) => heightStepMetres)).toEqual([0, 0, 0]);
    const stepped = planned(withOptions(three, { heightStepFeet: 200 })).plan.ships.map(({ heightStepMetres }) => heightStepMetres);
    expect(stepped[1]).toBeCloseTo(60.96, 9);
    expect(stepped[2]).toBeCloseTo(121.92, 9);
  });

  test('no letter stays half-written for longer than it allows, unless it takes longer by itself', () => {
    const job = withOptions({ ...DEMO_JOB, text: 'ZEBRA PIZZA' }, { letterOrder: 'free', progress: 'free' });
    const longest = (seconds: number): number =>
      Math.max(
        ...letterTimes(planned(withOptions(job, { longestUnfinishedSeconds: seconds })).plan).map(
          ({ begunSeconds, completedSeconds }) => completedSeconds - begunSeconds,
        ),
      );
    expect(longest(3600)).toBeGreaterThan(250);
    expect(longest(150)).toBeLessThanOrEqual(150);
  });

  test('strokes are turned out of a low sun', () => {
    // Sun in the west north west an hour and a half before it sets; stems run along its azimuth.
    const readTime = '2027-06-19T23:00:00Z';
    const evening = { ...DEMO_JOB, text: 'HILL', readTime, facingDegreesTrue: 287 };
    const sun = sunAt(DEMO_JOB.site, Date.parse(readTime) - 150_000);
    expect((sun.azimuthRadians * 180) / Math.PI).toBeGreaterThan(270);
    const intoSun = (sunOffNose: boolean): number =>
      planned(withOptions(evening, { sunOffNose })).plan.ships[0]!.legs.filter(
        ({ kind, path }) => kind === 'smoke' && isGlare(bearingFromDirection(path.start.directionRadians), sun),
      ).length;
    expect(intoSun(false)).toBeGreaterThan(0);
    expect(intoSun(true)).toBeLessThan(intoSun(false));
    expect(planned(withOptions({ ...evening, readTime: '2027-06-19T04:00:00Z' }, { sunOffNose: true })).plan.penaltySeconds).toBe(0);
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
