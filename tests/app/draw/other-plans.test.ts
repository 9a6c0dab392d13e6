import { signal } from '@preact/signals';
import { describe, expect, it } from 'vitest';
import { betterHeight, createOtherPlans, FREE_ORDER, otherJobs } from '../../../src/app/draw/other-plans.ts';
import { createPlanner, type Planner } from '../../../src/app/planner.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import type { Job } from '../../../src/core/job/job.ts';
import { planJob } from '../../../src/core/plan/plan-job.ts';
import type { PlannedJob } from '../../../src/core/plan/planned-job.ts';

const planner = createPlanner(async () => ({ planJob: async (job) => planJob(job), dispose: () => {} }));

async function planned(job: Job): Promise<PlannedJob> {
  const result = await planner.plan(job);
  if (!result.ok) throw new Error(result.problem.kind);
  return result.value;
}

const settle = async (holds: () => boolean): Promise<void> => {
  while (!holds()) await new Promise((resolve) => setTimeout(resolve, 1));
};

describe('plans with one choice made otherwise', () => {
  it('are those of the other hands, of free order, and of heights near the job\u2019s', () => {
    const names = [...otherJobs(DEMO_JOB).keys()];
    expect(names.slice(0, 4)).toEqual(['capitals', 'quickest', 'joined', FREE_ORDER]);
    expect(names).toContain('4300 ft');
    expect(names).not.toContain(`${DEMO_JOB.letters.heightFeet} ft`);
    const free = { ...DEMO_JOB, options: { ...DEMO_JOB.options, letterOrder: 'free' as const, progress: 'free' as const } };
    expect(otherJobs(free).has(FREE_ORDER)).toBe(false);
  });

  it('are made while the desk is at rest, and free order is never slower', async () => {
    const now = await planned(DEMO_JOB);
    const other = createOtherPlans(signal(now.job), signal(null), planner);
    await settle(() => other.plans.value.size === otherJobs(DEMO_JOB).size);
    expect(other.plans.value.get(FREE_ORDER)!.plan.durationSeconds).toBeLessThanOrEqual(now.plan.durationSeconds + 1e-6);
    expect(other.plans.value.get('capitals')!.plan.durationSeconds).toBeGreaterThan(now.plan.durationSeconds);
    other.dispose();
  });

  it('are made of a job that cannot be planned as it is, too', async () => {
    const job: Job = { ...DEMO_JOB, text: 'SO', options: { ...DEMO_JOB.options, hand: 'capitals' }, letters: { ...DEMO_JOB.letters, heightFeet: 800 } };
    expect(planJob(job).ok).toBe(false);
    const other = createOtherPlans(signal(job), signal(null), planner);
    await settle(() => other.plans.value.size === otherJobs(job).size);
    expect(other.plans.value.get('joined')).toBeNull();
    other.dispose();
  });

  it('stop as soon as the desk plans again', async () => {
    const stops: AbortSignal[] = [];
    const slow: Planner = {
      plan: (_job, _onProgress, stop) =>
        new Promise((_resolve, reject) => stops.push(stop!) && stop!.addEventListener('abort', () => reject(new Error('stopped')))),
    };
    const busy = signal<number | null>(null);
    const other = createOtherPlans(signal(DEMO_JOB), busy, slow);
    expect(stops).toHaveLength(1);
    busy.value = 0;
    expect(stops[0]!.aborted).toBe(true);
    expect(other.plans.value.size).toBe(0);
    other.dispose();
  });
});

describe('a better height', () => {
  it('is one near the job\u2019s that takes at least 3 % less time, and is truly quicker', async () => {
    let proposed = 0;
    for (const heightFeet of [2950, 3000, 3050, 3100, 3500, 4000]) {
      const job = { ...DEMO_JOB, text: 'MARRY', letters: { ...DEMO_JOB.letters, heightFeet } };
      const now = await planned(job);
      const plans = new Map<string, PlannedJob | null>();
      for (const [name, other] of otherJobs(job)) plans.set(name, await planned(other).catch(() => null));
      const better = betterHeight(now, plans);
      const quickest = Math.min(...[...plans].flatMap(([name, plan]) => (name.endsWith(' ft') && plan !== null ? [plan.plan.durationSeconds] : [])));
      if (better === null) {
        expect(quickest).toBeGreaterThan(0.97 * now.plan.durationSeconds);
        continue;
      }
      proposed += 1;
      const taken = await planned({ ...job, letters: { ...job.letters, heightFeet: better.heightFeet } });
      expect(taken.plan.durationSeconds).toBeCloseTo((1 - better.savedShare) * now.plan.durationSeconds, 6);
      expect(taken.plan.durationSeconds).toBeCloseTo(quickest, 6);
    }
    expect(proposed).toBeGreaterThan(0);
  });
});
