import type { VNode } from 'preact';
import { useEffect, useMemo } from 'preact/hooks';
import { watchLostJobs } from '../../app/jobs/lost-jobs.ts';
import { useApplication } from '../application-context.ts';

/** Names the jobs that were stored here and are gone, until a person has read it. */
export function LostJobs(): VNode | null {
  const { jobs } = useApplication();
  const watch = useMemo(() => watchLostJobs(jobs.state, () => localStorage), [jobs]);
  useEffect(() => watch.end, [watch]);
  const lost = watch.lost.value;
  if (lost.length === 0) return null;
  return (
    <div class="notice caution" role="alert">
      <h2>{lost.length === 1 ? 'One job is' : `${lost.length} jobs are`} no longer on this device</h2>
      <ul>
        {lost.map(({ id, name }) => (
          <li key={id}>{name}</li>
        ))}
      </ul>
      <p>
        Nobody deleted {lost.length === 1 ? 'it' : 'them'} here: the browser cleared its storage, and the flights with it. Import the files again, and install
        the app so that it is kept.
      </p>
      <button type="button" onClick={() => watch.acknowledge()}>
        I have read this
      </button>
    </div>
  );
}
