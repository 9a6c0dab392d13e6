import type { Job } from '../../core/job/job.ts';
import type { Route } from '../route.ts';
import type { JobShelf } from './shelf-types.ts';

/** The job whose read time comes next; the last one where all are past. Null without jobs. */
export function nextJob(jobs: readonly Job[], nowMilliseconds: number): Job | null {
  const timed = jobs.toSorted((one, other) => Date.parse(one.readTime) - Date.parse(other.readTime));
  return timed.find(({ readTime }) => Date.parse(readTime) >= nowMilliseconds) ?? timed.at(-1) ?? null;
}

/** Goes where a shortcut of the system leads, once the jobs are read: the next job, or a new one. Returns what ends it. */
export function followShortcut(jobs: Pick<JobShelf, 'state' | 'create'>, go: (route: Route) => void): () => void {
  const wanted = location.hash;
  if (wanted !== '#/next/write' && wanted !== '#/new') return () => {};
  let done = false;
  return jobs.state.subscribe((state) => {
    if (done || state.kind !== 'ready') return;
    done = true;
    if (wanted === '#/new') {
      void jobs.create().then((job) => {
        if (job !== null) go({ screen: 'draw', jobId: job.id });
      });
      return;
    }
    const job = nextJob(state.jobs, Date.now());
    if (job !== null) go({ screen: 'write', jobId: job.id });
  });
}
