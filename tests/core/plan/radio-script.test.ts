import { expect, it } from 'vitest';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import type { Job } from '../../../src/core/job/job.ts';
import { planJob } from '../../../src/core/plan/plan-job.ts';
import { radioScript } from '../../../src/core/plan/radio-script.ts';

const clock = (milliseconds: number): string => new Date(milliseconds).toISOString().slice(11, 19);

function scriptOf(job: Job) {
  const planned = planJob(job);
  if (!planned.ok) throw new Error(planned.problem.kind);
  return { calls: radioScript(job, planned.value, clock), value: planned.value };
}

it('says the calls of a ship alone in their order, with the clock of the first smoke', () => {
  const { calls, value } = scriptOf(DEMO_JOB);
  expect(calls.map(({ step }) => step)).toEqual(['check-in', 'time-hack', 'first-smoke', 'last-smoke', 'knock-it-off']);
  expect(calls[1]?.words).toContain(clock(Date.parse(DEMO_JOB.readTime) - value.readSeconds * 1000));
  expect(calls.at(-2)?.words).toBe(`Lead, last smoke, leaving ${DEMO_JOB.layer.altitudeFeet} feet.`);
  expect(calls.at(-1)?.words).toMatch(/^Knock it off, knock it off\. Smoke off/);
});

it('names each ship of two with its own height, and the break between them', () => {
  const [ship] = DEMO_JOB.ships;
  const { calls, value } = scriptOf({ ...DEMO_JOB, text: 'GO', ships: [ship!, { ...ship!, name: 'Two' }] });
  const joins = calls.filter(({ step }) => step === 'join-up');
  expect(joins.map(({ from }) => from)).toEqual(['Lead', 'Two']);
  const feet = value.plan.ships.map(({ ownHeightStepMetres = 0 }) => Math.round((value.air.layerHeightMetres + ownHeightStepMetres) / 0.3048));
  expect(new Set(feet).size).toBe(2);
  joins.forEach(({ words }, index) => expect(words).toContain(`${feet[index]} feet`));
  expect(calls.filter(({ step }) => step === 'break')).toHaveLength(1);
  // At the layer it leaves for its own height, which it must not be said to leave.
  expect(calls.find(({ step }) => step === 'last-smoke')?.words).toBe(`Lead, last smoke, leaving for ${feet[0]} feet.`);
  // Between the hack and the joining, when a new hack is still in time.
  const check = calls.find(({ step }) => step === 'time-check')!;
  expect(check).toMatchObject({ from: 'Lead', atSeconds: -300 });
  expect(check.words).toBe('Time check: 5 minutes to first smoke, now. \u201cTwo, checks.\u201d Whose screen is 3 seconds off or more says so: new hack.');
});

it('invents no words for calling it off', () => {
  expect(scriptOf({ ...DEMO_JOB, knockItOffWords: '' }).calls.at(-1)?.words).toMatch(/^Words that call it off: not entered/);
});
