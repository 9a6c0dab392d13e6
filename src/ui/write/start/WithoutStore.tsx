import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import { readJobFiles } from '../../../app/jobs/import-job-files.ts';
import { readSpare } from '../../../app/jobs/spare-job.ts';
import type { Job } from '../../../core/job/job.ts';
import { useApplication } from '../../application-context.ts';
import { WriteGround } from './WriteGround.tsx';
import { FileButton } from '../../fields/FileButton.tsx';

/** A store that is well answers within this; the way on is offered after it. */
const PATIENCE_SECONDS = 2;

/** While the storage has not answered: what is waited for, and last of all a way to fly without it. */
export function WithoutStore({ jobId }: { readonly jobId: string }): VNode {
  const { flightDesk, flights, jobs } = useApplication();
  const waitedSeconds = useSignal(0);
  const chosen = useSignal<Job | null>(null);
  const fault = useSignal<string | null>(null);
  useEffect(() => {
    const timer = setInterval(() => (waitedSeconds.value += 1), 1000);
    return () => clearInterval(timer);
  }, []);
  if (chosen.value !== null) return <WriteGround job={chosen.value} />;
  const isAsking = flightDesk.state.value.kind === 'asking';
  const what = isAsking ? 'Looking for a flight to go on with' : 'Opening what is stored';
  const shelf = jobs.state.value;
  if (waitedSeconds.value < PATIENCE_SECONDS && shelf.kind !== 'failed')
    return (
      <p class="quiet" role="status">
        {what}
      </p>
    );
  const reason = flights.fault.value ?? (shelf.kind === 'failed' ? shelf.reason : null);
  const spare = readSpare(() => localStorage, jobId);
  const start = (job: Job): void => {
    if (isAsking) flightDesk.goWithoutStore();
    chosen.value = job;
  };
  return (
    <section class="notice caution" role="alert" data-without-store>
      <h1>The storage of this device has not answered</h1>
      <p>
        {what}: asked for {waitedSeconds.value} s, and asked again and again. {reason ?? ''} Nothing was deleted.
      </p>
      <p>
        {isAsking ? 'A flight that was broken off would be found there, and gone on with. ' : ''}Without it nothing of a flight is kept until it answers; the
        cues need none of it.
      </p>
      <div class="row">
        {spare !== null && (
          <button type="button" onClick={() => start(spare.job)}>
            Start without a log
          </button>
        )}
        <FileButton
          label="Job file to fly without a log"
          accept=".json,application/json"
          onFiles={(files) =>
            void readJobFiles(files).then((reading) => {
              const job = reading.ok ? reading.jobs[0] : undefined;
              if (job !== undefined) start(job);
              else fault.value = reading.ok ? 'This file holds no job.' : (reading.refused[0]?.reason ?? 'This file cannot be read.');
            })
          }
        >
          {spare === null ? 'Start without a log, from the job\u2019s file' : 'From the job\u2019s file'}
        </FileButton>
      </div>
      {spare !== null && (
        <p class="small">
          {spare.job.name}, as it was when it was last opened here, {new Date(spare.keptMilliseconds).toUTCString()}.
        </p>
      )}
      {fault.value !== null && <p role="alert">{fault.value}</p>}
    </section>
  );
}
