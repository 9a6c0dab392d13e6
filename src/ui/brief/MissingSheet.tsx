import type { VNode } from 'preact';
import type { Job } from '../../core/job/job.ts';
import { missingEntries } from '../../core/job/not-entered.ts';
import { DemoMark } from '../drawing/DemoMark.tsx';

/** A sheet of a job that cannot be placed, timed and flown yet: what it is called, and everything that is missing. */
export function MissingSheet({ job, title }: { readonly job: Job; readonly title: string }): VNode {
  const missing = missingEntries(job);
  return (
    <article class="sheet missing-sheet" aria-label={title}>
      <header>
        <h2>{title}</h2>
        <DemoMark job={job} />
        <p>
          {job.name}
          {job.text === '' ? '' : `: ${job.text}`}
        </p>
      </header>
      <p>
        <strong>Not to be flown from.</strong> This sheet is made once what is needed first has been entered on Draw.
      </p>
      <h3>Not entered</h3>
      <ul>
        {missing.map(({ words, needed }) => (
          <li key={words}>
            {words}
            {needed === 'first' ? ', needed first' : ''}
          </li>
        ))}
      </ul>
    </article>
  );
}

/** What a sheet that can be made still lacks, in one line; nothing where all was entered. */
export function MissingLine({ job }: { readonly job: Job }): VNode | null {
  const missing = missingEntries(job);
  return missing.length === 0 ? null : (
    <p class="small missing-line">
      <strong>Not entered:</strong> {missing.map(({ words }) => words).join(', ')}.
    </p>
  );
}
