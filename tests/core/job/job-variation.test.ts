import { expect, it } from 'vitest';
import { variationDegrees } from '../../../src/core/earth/magnetic-variation.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import { jobVariation } from '../../../src/core/job/job-variation.ts';

const BY_HAND = { eastDegrees: 21, ofTime: '2031-05-01T00:00:00Z', always: false };
const withHand = (always: boolean) => ({ site: { ...DEMO_JOB.site, variationByHand: { ...BY_HAND, always } } });
const IN_TIME = Date.UTC(2027, 5, 19);
const AFTER_THE_MODEL = Date.UTC(2031, 5, 19);

it('is the model\u2019s in its years, the pilot\u2019s own after them, and always where the pilot says so', () => {
  const model = variationDegrees(DEMO_JOB.site, 3200, IN_TIME);
  expect(jobVariation(DEMO_JOB, 3200, IN_TIME)).toEqual({ ...model, byHandOf: null });
  expect(jobVariation(withHand(false), 3200, IN_TIME)).toEqual({ ...model, byHandOf: null });
  expect(jobVariation(withHand(true), 3200, IN_TIME)).toMatchObject({ ok: true, variationDegrees: 21, byHandOf: BY_HAND.ofTime });
  expect(jobVariation(withHand(false), 3200, AFTER_THE_MODEL)).toMatchObject({ ok: true, variationDegrees: 21 });
  expect(jobVariation(DEMO_JOB, 3200, AFTER_THE_MODEL).ok).toBe(false);
});
