import { isEntered } from '../../core/job/not-entered.ts';
import { DemoMark } from '../drawing/DemoMark.tsx';
import { clockText } from '../words/clock.ts';
import type { VNode } from 'preact';
import { exportJob } from '../../app/jobs/export-job.ts';
import { hashFromRoute } from '../../app/route.ts';
import type { Job } from '../../core/job/job.ts';
import { useApplication } from '../application-context.ts';
import { JoinFold } from '../link/JoinFold.tsx';
import { lazily } from '../lazily.tsx';
import { PlainWord } from './PlainWord.tsx';

// Letters are no part of the flight path, whose script is loaded first.
const JobDrawing = lazily(async () => (await import('./JobDrawing.tsx')).JobDrawing, PlainWord);

/** One booking: what is to be written, drawn as it will be read, and what can be done with it. */
export function JobCard({ job, large }: { readonly job: Job; readonly large: boolean }): VNode {
  const { database, jobs } = useApplication();
  const title = `job-${job.id}`;
  return (
    <article class="job-card" aria-labelledby={title}>
      <a class="job-drawing" href={hashFromRoute({ screen: 'draw', jobId: job.id })} aria-label={`Draw ${job.name}`}>
        <JobDrawing job={job} large={large} />
      </a>
      <div class="job-words">
        <h2 id={title}>{job.name}</h2>
        <p class="quiet">
          {isEntered(job, 'readTime') ? clockText(Date.parse(job.readTime), job.site.timeZone, { day: 'weekday' }) : 'read time not entered'},{' '}
          {job.site.name === '' ? 'site not entered' : job.site.name}
        </p>
        <DemoMark job={job} />
      </div>
      <div class="row job-actions">
        <a class="button main" href={hashFromRoute({ screen: 'draw', jobId: job.id })}>
          Draw
        </a>
        <a class="button" href={hashFromRoute({ screen: 'write', jobId: job.id })}>
          Write
        </a>
        <span class="job-rare">
          <button type="button" class="plain" onClick={() => void jobs.duplicate(job.id)}>
            Duplicate
          </button>
          <button type="button" class="plain" onClick={() => void exportJob(database, job, Date.now())}>
            Export
          </button>
          <button type="button" class="plain" onClick={() => void jobs.remove(job.id)}>
            Delete
          </button>
          <JoinFold job={job} />
        </span>
      </div>
    </article>
  );
}
