import { DEMO_JOB } from '../../core/job/demo-job.ts';
import type { Job } from '../../core/job/job.ts';
import { newId } from '../new-id.ts';

const HOUR_MILLISECONDS = 3_600_000;
const DAY_MILLISECONDS = 24 * HOUR_MILLISECONDS;

/** A booking to be filled in: a short text over the demo's site, to be read a week from now at the full hour. */
export function newJob(nowMilliseconds: number): Job {
  const readMilliseconds = Math.ceil((nowMilliseconds + 7 * DAY_MILLISECONDS) / HOUR_MILLISECONDS) * HOUR_MILLISECONDS;
  return {
    ...DEMO_JOB,
    id: newId(),
    name: 'New job',
    text: 'HELLO',
    readTime: new Date(readMilliseconds).toISOString(),
    notes: '',
  };
}

/** The same booking under a new id, its name marked as a copy. */
export function copiedJob(job: Job): Job {
  const marked = / \(copy(?: (\d+))?\)$/.exec(job.name);
  const count = marked === null ? 1 : Number(marked[1] ?? 1) + 1;
  const mark = count === 1 ? ' (copy)' : ` (copy ${count})`;
  const base = marked === null ? job.name : job.name.slice(0, marked.index);
  return { ...job, id: newId(), name: `${[...base].slice(0, 60 - mark.length).join('')}${mark}` };
}
