import type { Job } from '../core/job/job.ts';
import { jobAir } from '../core/job/job-air.ts';
import { missingFirstWords } from '../core/job/not-entered.ts';
import type { JobPlanProblem, JobPlanResult } from '../core/plan/plan-job.ts';
import { planKey } from '../core/plan/plan-key.ts';
import type { PlannedJob } from '../core/plan/planned-job.ts';
import type { PlannerClient } from '../workers/planner-client.ts';
import { planningProblem } from './planning-problem.ts';
import { unitText } from '../core/text/unit-text.ts';
import { OWN_UNITS } from '../core/units/unit-kinds.ts';
import type { Database } from '../store/database.ts';
import { storedUnits } from './units-choice.ts';

export type PlanningResult = { readonly ok: true; readonly value: PlannedJob } | { readonly ok: false; readonly problem: JobPlanProblem };

/** The one planner of the page: every screen asks it, so all show the very plan that is flown. */
export interface Planner {
  /**
   * The plan of a job, made off the page, or as it was made before for a job of the same key.
   *
   * @param onProgress called with a fraction from 0 to 1 while it works, not after it was stopped
   * @param stop aborts the run; the promise then rejects with the signal's reason
   * @throws an Error when the worker breaks off or could not be started; the next job is planned by a fresh one
   */
  plan(job: Job, onProgress?: (fraction: number) => void, stop?: AbortSignal): Promise<PlanningResult>;
}

/** Of so many jobs the last plan is kept: the screens', and those Draw compares with. */
const KEPT_PLANS = 24;

/** A planner; its worker is started when a plan is first asked for, and lives as long as the page. */
export function createPlanner(start: () => Promise<PlannerClient>): Planner {
  const kept = new Map<string, JobPlanResult>();
  let client: Promise<PlannerClient> | null = null;

  async function made(job: Job, onProgress: (fraction: number) => void, stop: AbortSignal): Promise<JobPlanResult> {
    const used = (client ??= start());
    try {
      return await (await used).planJob(job, onProgress, stop);
    } catch (error) {
      if (!stop.aborted && client === used) {
        client = null;
        void used.then((broken) => broken.dispose()).catch(() => {});
      }
      throw error;
    }
  }

  return {
    async plan(job, onProgress = () => {}, stop = new AbortController().signal) {
      const key = planKey(job);
      const result = kept.get(key) ?? (await made(job, onProgress, stop));
      kept.delete(key);
      kept.set(key, result);
      const [oldest] = kept.keys();
      if (kept.size > KEPT_PLANS && oldest !== undefined) kept.delete(oldest);
      // The air is the job's own: what was looked up on the day may have changed since.
      return result.ok ? { ok: true, value: { ...result.value, job, air: jobAir(job) } } : result;
    },
  };
}

/** A plan, or why there is none in one or two sentences that say what to change. Never rejects. */
export type PlanOrReason = { readonly ok: true; readonly value: PlannedJob } | { readonly ok: false; readonly reason: string };

/** Why a job cannot be planned before more of it is entered, and where; null when it can be tried. */
export function whyNotPlanned(job: Job): string | null {
  const missing = missingFirstWords(job);
  return missing === null ? null : `${missing} Enter it on Draw.`;
}

/**
 * Plans a job for a screen that only shows or flies it.
 *
 * @param database where the units are kept that a reason is told in
 */
export async function planOrReason(planner: Planner, job: Job, database: Database): Promise<PlanOrReason> {
  const reason = whyNotPlanned(job);
  if (reason !== null) return { ok: false, reason };
  try {
    const result = await planner.plan(job);
    if (result.ok) return result;
    const { title, remedies } = planningProblem(result.problem, job, unitText({ ...OWN_UNITS, ...(await storedUnits(database)) }));
    return { ok: false, reason: [title, ...(remedies.length === 0 ? [] : [`On Draw: ${remedies.join(', ')}.`])].join(' ') };
  } catch (error) {
    return { ok: false, reason: `The planner broke off: ${error instanceof Error ? error.message : String(error)}. Load the page again.` };
  }
}
