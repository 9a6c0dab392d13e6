import { type Endpoint, proxy, releaseProxy, wrap } from 'comlink';
import type { Job } from '../core/job/job.ts';
import type { JobPlanResult } from '../core/plan/plan-job.ts';
import type { PlannerService } from './planner-service.worker.ts';

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

/** A client on any endpoint that the service listens behind. */
export function plannerClientOn(endpoint: Endpoint): PlannerClient {
  const service = wrap<PlannerService>(endpoint);
  const broken = new AbortController();
  const breakOff = (): void => broken.abort(new Error('the planner could not be started or broke off'));
  endpoint.addEventListener('error', breakOff);
  endpoint.addEventListener('messageerror', breakOff);
  let runs = 0;
  return {
    async planJob(job, onProgress, stop) {
      stop.throwIfAborted();
      broken.signal.throwIfAborted();
      const runId = (runs += 1);
      const ended = new AbortController();
      const stopped = new Promise<never>((_resolve, reject) => {
        const end = (signal: AbortSignal) => (): void => {
          void service.stop(runId);
          reject(signal.reason instanceof Error ? signal.reason : new Error(String(signal.reason)));
        };
        stop.addEventListener('abort', end(stop), { signal: ended.signal });
        broken.signal.addEventListener('abort', end(broken.signal), { signal: ended.signal });
      });
      try {
        const report = proxy((fraction: number) => {
          if (!stop.aborted && !ended.signal.aborted) onProgress(fraction);
        });
        const result = await Promise.race([service.plan(runId, job, report), stopped]);
        stop.throwIfAborted();
        if (result === null) throw new Error('the planner was stopped by someone else');
        return result;
      } finally {
        ended.abort();
      }
    },
    dispose() {
      endpoint.removeEventListener('error', breakOff);
      endpoint.removeEventListener('messageerror', breakOff);
      service[releaseProxy]();
    },
  };
}

/** Starts the worker. Disposing of the client ends it. */
export function startPlanner(): PlannerClient {
  const worker = new Worker(new URL('./planner.worker.ts', import.meta.url), { type: 'module', name: 'planner' });
  const client = plannerClientOn(worker);
  return {
    planJob: client.planJob,
    dispose() {
      client.dispose();
      worker.terminate();
    },
  };
}
