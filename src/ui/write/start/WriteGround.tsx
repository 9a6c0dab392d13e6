import type { VNode } from 'preact';
import { useEffect, useMemo } from 'preact/hooks';
import './write-ground.css';
import { createPreflight } from '../../../app/flight/preflight.ts';
import { keepSpare } from '../../../app/jobs/spare-job.ts';
import type { Job } from '../../../core/job/job.ts';
import { useApplication } from '../../application-context.ts';
import { WithUnits } from '../../fields/WithUnits.tsx';
import { StartPanel } from './StartPanel.tsx';

/** The Write screen on the ground, with all that is looked at and chosen there. */
export function WriteGround({ job }: { readonly job: Job }): VNode {
  const { database, flightDesk, planner, storage, updates } = useApplication();
  const preflight = useMemo(
    () =>
      createPreflight({
        job,
        database,
        flightDesk,
        planner,
        shell: updates.shell,
        persistence: storage.persistence,
        writer: storage.writer,
        nowMilliseconds: () => Date.now(),
      }),
    [job],
  );
  useEffect(() => () => preflight.end(), [preflight]);
  useEffect(() => keepSpare(() => localStorage, job, Date.now()), [job]);
  useEffect(() => {
    if (storage.persistence.peek() === null) void storage.ask();
  }, []);
  return (
    <WithUnits>
      <StartPanel preflight={preflight} />
    </WithUnits>
  );
}
