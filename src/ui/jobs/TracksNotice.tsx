import type { VNode } from 'preact';
import { useApplication } from '../application-context.ts';

export interface TracksNoticeProps {
  readonly tracks: readonly File[];
  readonly onClose: () => void;
}

/** Recorded flights that were given to Jobs: whose they are is asked, and they go to that job's debrief. */
export function TracksNotice({ tracks, onClose }: TracksNoticeProps): VNode {
  const { jobs, go, handedOver } = useApplication();
  const state = jobs.state.value;
  const names = tracks.map(({ name }) => name).join(', ');
  return (
    <div class="notice" role="status" data-tracks={tracks.length}>
      <p>
        <bdi>{names}</bdi> {tracks.length === 1 ? 'is a recorded flight' : 'are recorded flights'}, not a job. Whose debrief should have{' '}
        {tracks.length === 1 ? 'it' : 'them'}?
      </p>
      <div class="row">
        {state.kind === 'ready' &&
          state.jobs.map((job) => (
            <button
              key={job.id}
              type="button"
              onClick={() => {
                handedOver.value = tracks;
                onClose();
                go({ screen: 'debrief', jobId: job.id });
              }}
            >
              {job.name}
            </button>
          ))}
        <button type="button" class="plain" onClick={onClose}>
          None
        </button>
      </div>
    </div>
  );
}
