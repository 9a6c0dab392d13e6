import { describe, expect, it } from 'vitest';
import { bestWindows, daysOutlook } from '../../../src/core/checks/days-outlook.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import type { Job } from '../../../src/core/job/job.ts';
import { planJob } from '../../../src/core/plan/plan-job.ts';
import { readingOf } from '../../../src/core/sky/reading-of.ts';
import { unitText } from '../../../src/core/text/unit-text.ts';

function outlook(job: Job) {
  const made = planJob(job);
  if (!made.ok) throw new Error(made.problem.kind);
  return daysOutlook({ ...made.value, job }, readingOf(made.value, null));
}
const wind = (knots: number): Job['winds'] => DEMO_JOB.winds.map((row) => ({ ...row, speedKnots: knots }));
const forecast = (validTime: string, knots: number, clouds: Job['conditions']['clouds'] = []): Job['forecasts'][number] => ({
  validTime,
  issuedTime: null,
  source: 'typed',
  winds: wind(knots),
  conditions: { altimeterHectopascals: null, visibilityStatuteMiles: null, clouds },
});

describe('the days', () => {
  it('are the booked one, the spare ones and those with a forecast, in order, blank where nobody looked', () => {
    const days = outlook({
      ...DEMO_JOB,
      booking: { ...DEMO_JOB.booking, spareTimes: ['2027-06-21T17:30:00Z'] },
      forecasts: [forecast('2027-06-20T15:00:00Z', 8)],
    });
    expect(days.map(({ kind }) => kind)).toEqual(['booked', 'forecast', 'spare']);
    const known = days.flatMap(({ hours }) => hours.filter((hour) => hour.wind !== null));
    // Three hours before and after its own, seven in all.
    expect(known).toHaveLength(7);
    expect(days[0]?.hours.every((hour) => hour.wind === null && hour.cloud === 'not checked')).toBe(true);
  });

  it('names the calm hour before the windy one, and never one in cloud', () => {
    const inCloud = [{ baseFeet: 9000, topFeet: 12_000, oktas: 6 }];
    const days = outlook({
      ...DEMO_JOB,
      forecasts: [forecast('2027-06-19T14:00:00Z', 28), forecast('2027-06-20T17:00:00Z', 6), forecast('2027-06-21T17:00:00Z', 5, inCloud)],
    });
    const [best] = bestWindows(days, unitText());
    expect(new Date(best!.best.readMilliseconds).toISOString().slice(0, 10)).toBe('2027-06-20');
    expect(best!.reasons.join(' ')).toMatch(/6 kt from 0\d\d\u00b0 true.*clear of cloud/);
    expect(bestWindows(days, unitText()).some(({ best: each }) => each.cloud === 'in cloud')).toBe(false);
    const cloudy = days[2]?.hours.filter((hour) => hour.cloud === 'in cloud');
    expect(cloudy?.length).toBeGreaterThan(3);
    expect(cloudy?.every(({ score }) => score === null)).toBe(true);
  });
});
