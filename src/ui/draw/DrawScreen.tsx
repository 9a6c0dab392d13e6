import type { VNode } from 'preact';
import { useComputed } from '@preact/signals';
import { useRef } from 'preact/hooks';
import { readSmokeCalibration } from '../../app/smoke-settings.ts';
import { createJobVersions } from '../../app/draw/job-versions.ts';
import { createRulesChoice } from '../../app/draw/rules-choice.ts';
import { createKeptShelf } from '../../app/kept/kept-things.ts';
import { keptOverlay } from '../../app/kept-overlay.ts';
import type { Job } from '../../core/job/job.ts';
import { useApplication } from '../application-context.ts';
import { WithUnits } from '../fields/WithUnits.tsx';
import { OpenDraw } from './OpenDraw.tsx';

/** The Draw screen of one job. */
export function DrawScreen({ jobId }: { readonly jobId: string }): VNode {
  const { jobs, database, planner } = useApplication();
  const state = jobs.state.value;
  // The job as it was when the screen opened; from then on the desk's own edits are ahead of the store.
  const stored = useRef<Job | null>(null);
  stored.current ??= jobs.find(jobId);
  const latest = useComputed(() => {
    void jobs.state.value;
    return jobs.find(jobId);
  });
  if (stored.current !== null) {
    return (
      <WithUnits>
        <OpenDraw
          stored={stored.current}
          save={(job, base) => jobs.save(job, base)}
          latest={latest}
          planner={planner}
          overlayStore={keptOverlay(database, jobId)}
          openVersions={(editor) => createJobVersions(database, jobId, editor)}
          openRules={() => createRulesChoice(database)}
          openKept={() => createKeptShelf(database, () => Date.now())}
          readCalibration={() => readSmokeCalibration(database)}
        />
      </WithUnits>
    );
  }
  if (state.kind === 'loading') {
    return (
      <p class="quiet" role="status">
        Opening the job
      </p>
    );
  }
  const damaged = state.kind === 'ready' ? state.damaged.find(({ id }) => id === jobId) : undefined;
  return (
    <section class="notice caution" role="alert">
      <h1>{damaged === undefined ? 'This job cannot be opened' : `${damaged.name} cannot be opened`}</h1>
      <p>{state.kind === 'failed' ? state.reason : (damaged?.reason ?? 'No job with this address is stored on this device.')}</p>
      <a class="button" href="#/jobs">
        To the jobs
      </a>
    </section>
  );
}
