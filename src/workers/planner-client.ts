import { proxy } from 'comlink';
import type { Job } from '../core/job/job.ts';
import type { JobPlanResult } from '../core/plan/plan-job.ts';
import { type OffPage, startOffPage } from './off-page.ts';

/** The planner off the page. */
export interface PlannerClient {
  /**
   * Plans a job in the worker, to the answer `planJob` gives on the page.
   *
   * @param onProgress called with a fraction from 0 to 1 while it works, not after it was stopped
   * @param stop aborts the run; the promise then rejects with the signal's reason
   * @throws an Error when the worker breaks off or could not be started
   */
  planJob(job: Job, onProgress: (fraction: number) => void, stop: AbortSignal): Promise<JobPlanResult>;
  dispose(): void;
}

/** A client of a worker, started unless one is handed in. Disposing of the client ends it. */
export function startPlanner({ services, broken, end }: OffPage = startOffPage('planner')): PlannerClient {
  const { planner } = services;
  let runs = 0;
  return {
    async planJob(job, onProgress, stop) {
      stop.throwIfAborted();
      const runId = (runs += 1);
      const ended = new AbortController();
      const stopped = new Promise<never>((_resolve, reject) => {
        const onStop = (): void => {
          void planner.stop(runId);
          reject(stop.reason instanceof Error ? stop.reason : new Error(String(stop.reason)));
        };
        stop.addEventListener('abort', onStop, { signal: ended.signal });
      });
      try {
        const report = proxy((fraction: number) => {
          if (!stop.aborted && !ended.signal.aborted) onProgress(fraction);
        });
        const result = await Promise.race([broken, planner.plan(runId, job, report), stopped]);
        stop.throwIfAborted();
        if (result === null) throw new Error('the planner was stopped by someone else');
        return result;
      } finally {
        ended.abort();
      }
    },
    dispose: end,
  };
}
