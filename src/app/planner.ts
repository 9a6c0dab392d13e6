import { type PlannerClient, startPlanner } from '../workers/planner-client.ts';

/** The planner off the page; after it broke off, the next job is planned by a fresh one. Disposing of it ends it. */
export function openPlanner(): PlannerClient {
  let client = startPlanner();
  return {
    async planJob(job, onProgress, stop) {
      try {
        return await client.planJob(job, onProgress, stop);
      } catch (error) {
        if (!stop.aborted) {
          client.dispose();
          client = startPlanner();
        }
        throw error;
      }
    },
    dispose: () => client.dispose(),
  };
}
