import { signal } from '@preact/signals';
import { describe, expect, it } from 'vitest';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import type { Job } from '../../../src/core/job/job.ts';
import type { PlanningResult } from '../../../src/app/planner.ts';
import type { PlannedJob } from '../../../src/core/plan/planned-job.ts';
import { createPlanningLoop } from '../../../src/app/draw/planning-loop.ts';
import { planningProblem } from '../../../src/app/planning-problem.ts';
import { unitText } from '../../../src/core/text/unit-text.ts';

const planOf = (text: string): PlanningResult => ({ ok: true, value: { plan: { text } } as PlannedJob });

function bench() {
  const job = signal<Job>(DEMO_JOB);
  const asked: { text: string; stop: AbortSignal; answer: (outcome: PlanningResult) => void; fail: (error: Error) => void }[] = [];
  let timer: (() => void) | null = null;
  const loop = createPlanningLoop(job, {
    planner: { plan: ({ text }, _onProgress, stop) => new Promise((answer, fail) => void asked.push({ text, stop: stop!, answer, fail })) },
    after(_milliseconds, call) {
      timer = call;
      return () => (timer = null);
    },
    words: (problem, wanted) => planningProblem(problem, wanted, unitText()),
  });
  const rest = (): void => {
    const due = timer;
    timer = null;
    due?.();
  };
  return { job, asked, loop, rest, settle: () => new Promise((resolve) => setTimeout(resolve)) };
}

describe('keeping a job planned', () => {
  it('plans once typing rests, stops the older plan, and never shows it', async () => {
    const { job, asked, loop, rest, settle } = bench();
    rest();
    job.value = { ...DEMO_JOB, text: 'SAILS' };
    job.value = { ...DEMO_JOB, text: 'SAILOR' };
    rest();
    expect(asked.map(({ text }) => text)).toEqual(['SAIL', 'SAILOR']);
    expect(asked[0]?.stop.aborted).toBe(true);
    asked[1]?.answer(planOf('SAILOR'));
    await settle();
    asked[0]?.answer(planOf('SAIL'));
    await settle();
    expect(loop.planned.value?.plan.text).toBe('SAILOR');
    expect(loop.busyFraction.value).toBeNull();
  });

  it('keeps the last plan beside a problem, and drops the problem with the next plan', async () => {
    const { job, asked, loop, rest, settle } = bench();
    rest();
    asked[0]?.answer(planOf('SAIL'));
    await settle();
    job.value = { ...DEMO_JOB, text: '\u4e2d' };
    rest();
    asked[1]?.answer({ ok: false, problem: { kind: 'text', reason: 'no drawing' } });
    await settle();
    expect(loop.problem.value?.title).toBe('no drawing');
    expect(loop.planned.value?.plan.text).toBe('SAIL');
    job.value = { ...DEMO_JOB, text: 'SEA' };
    rest();
    asked[2]?.fail(new Error('worker gone'));
    await settle();
    expect(loop.problem.value?.title).toContain('worker gone');
  });

  it('does not plan again for what the plan does not depend on, but shows the newest job', async () => {
    const { job, asked, loop, rest, settle } = bench();
    rest();
    asked[0]?.answer(planOf('SAIL'));
    await settle();
    job.value = { ...DEMO_JOB, notes: 'x', ships: DEMO_JOB.ships.map((ship) => ({ ...ship, smokeOilPounds: 0 })) };
    rest();
    expect(asked).toHaveLength(1);
    expect(loop.planned.value?.job.ships[0]?.smokeOilPounds).toBe(0);
  });

  it('plans again for every number the plan depends on', () => {
    const { job, asked, rest } = bench();
    rest();
    const [ship] = DEMO_JOB.ships;
    if (ship === undefined) throw new Error('the demo job has a ship');
    const changes: Job[] = [
      { ...DEMO_JOB, facingDegreesTrue: 1 },
      { ...DEMO_JOB, readTime: '2027-06-19T18:30:00Z' },
      { ...DEMO_JOB, layer: { ...DEMO_JOB.layer, altitudeFeet: 9000 } },
      { ...DEMO_JOB, winds: DEMO_JOB.winds.slice(1) },
      { ...DEMO_JOB, site: { ...DEMO_JOB.site, elevationFeet: 10 } },
      { ...DEMO_JOB, letters: { ...DEMO_JOB.letters, spacingHeights: 0.4 } },
      { ...DEMO_JOB, options: { ...DEMO_JOB.options, runInSeconds: 3 } },
      ...(['trueAirspeedKnots', 'writingBankDegrees', 'turningBankDegrees', 'rollRateDegreesPerSecond', 'smokeOilPoundsPerMinute'] as const).map((field) => ({
        ...DEMO_JOB,
        ships: [{ ...ship, [field]: 31 }],
      })),
    ];
    for (const change of changes) {
      job.value = change;
      rest();
    }
    expect(asked).toHaveLength(1 + changes.length);
  });
});
