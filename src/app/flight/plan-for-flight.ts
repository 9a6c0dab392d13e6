import type { Job } from '../../core/job/job.ts';
import type { Plan } from '../../core/plan/plan.ts';
import type { JobPlanProblem } from '../../core/plan/plan-job.ts';
import { feetFromMetres } from '../../core/units/quantity.ts';

/** A plan to be flown, or why there is none, in words that say what to change. */
export type PlanForFlight = { readonly ok: true; readonly plan: Plan } | { readonly ok: false; readonly reason: string };

/** Between two pieces of work the page is drawn and touched. */
const PIECE_MILLISECONDS = 12;

/**
 * The plan of a job, made in pieces so that the page stays awake: the very one that the Draw screen shows, since the
 * same job gives the same plan. The planner is fetched when it is asked for, from what is stored when offline: a
 * flight that is gone on with does not need it.
 */
export async function planForFlight(job: Job): Promise<PlanForFlight> {
  const { planJobSteps } = await import('../../core/plan/plan-job.ts');
  const steps = planJobSteps(job);
  let begunMilliseconds = performance.now();
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value.ok ? { ok: true, plan: step.value.value.plan } : { ok: false, reason: problemWords(step.value.problem) };
    if (performance.now() - begunMilliseconds < PIECE_MILLISECONDS) continue;
    await afterWaitingEvents();
    begunMilliseconds = performance.now();
  }
}

/** Lets the page draw and take touches; a message comes sooner than a timer, which browsers hold back. */
function afterWaitingEvents(): Promise<void> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(null);
  });
}

function problemWords(problem: JobPlanProblem): string {
  switch (problem.kind) {
    case 'text':
      return problem.reason;
    case 'no-ship':
      return 'The job has no ship: add one on the Draw screen.';
    case 'nothing-to-write':
      return 'There is nothing to write: type a text on the Draw screen.';
    case 'too-small':
      return `The letters are too small to fly: at least ${Math.ceil(feetFromMetres(problem.smallest.heightMetres) / 10) * 10} ft are needed. Make them larger, bank more or fly slower.`;
    case 'no-heading-allowed':
      return 'The sun allows no heading at that hour: change the hour or the facing.';
    case 'cannot-keep-apart':
      return `${problem.ships} ships cannot be kept apart over this text: take fewer ships or larger letters.`;
  }
}
