import './join.css';
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import { createCodeScanner } from '../../app/link/code-scanner.ts';
import { createJobTaker, type TakerState } from '../../app/link/job-taker.ts';
import { useApplication } from '../application-context.ts';

export interface JobWantedProps {
  readonly jobId: string;
  /** What the job must be, by its join code; null when that is not known. */
  readonly digest: string | null;
}

/** A job that is not on this device yet: read its codes, or take its file. */
export function JobWanted({ jobId, digest }: JobWantedProps): VNode {
  const { jobs, go } = useApplication();
  const taker = useMemo(() => createJobTaker(digest), [digest]);
  const scanner = useMemo(() => createCodeScanner(taker.takeCode), [taker]);
  const video = useRef<HTMLVideoElement>(null);
  const pictures = useRef<HTMLInputElement>(null);
  const file = useRef<HTMLInputElement>(null);
  const fault = useSignal<string | null>(null);
  useEffect(() => () => scanner.stop(), [scanner]);
  const state = taker.state.value;
  useEffect(() => {
    if (state.kind === 'taken') scanner.stop();
  }, [state.kind]);
  const keep = async (taken: Extract<TakerState, { kind: 'taken' }>): Promise<void> => {
    try {
      await jobs.save(taken.job);
      if (taken.job.id !== jobId) go({ screen: 'ground', jobId: taken.job.id });
    } catch (error) {
      fault.value = error instanceof Error ? error.message : String(error);
    }
  };
  const camera = scanner.camera.value;
  return (
    <section class="job-wanted">
      <h1>This job is not on this device yet</h1>
      <p>On a device that has it: Jobs or Brief, “Join”, “Show the job as codes”; or its file by any way that files go. Neither needs a network.</p>
      <div class="row">
        <button
          type="button"
          class="main"
          onClick={() => {
            if (video.current !== null) scanner.start(video.current);
          }}
        >
          Read the codes
        </button>
        <button type="button" onClick={() => pictures.current?.click()}>
          Codes from pictures
        </button>
        <button type="button" onClick={() => file.current?.click()}>
          The job’s file
        </button>
        <input
          ref={pictures}
          type="file"
          hidden
          multiple
          accept="image/*"
          aria-label="Pictures of codes"
          onChange={(event) => {
            const files = [...(event.currentTarget.files ?? [])];
            event.currentTarget.value = '';
            void scanner.readPictures(files).then((found) => (fault.value = found === files.length ? null : `${files.length - found} of ${files.length} pictures hold no code that can be read.`));
          }}
        />
        <input
          ref={file}
          type="file"
          hidden
          accept=".json,application/json"
          aria-label="Job file to take"
          onChange={(event) => {
            const chosen = event.currentTarget.files?.[0];
            event.currentTarget.value = '';
            if (chosen !== undefined) void taker.takeFile(chosen);
          }}
        />
      </div>
      <video ref={video} class="job-wanted-video" playsInline muted hidden={camera?.kind !== 'looking'} />
      <p role="status" class="job-wanted-state" data-taker={state.kind}>
        {camera?.kind === 'asking' && 'Asking for the camera. '}
        {camera?.kind === 'refused' && 'The camera was refused. Take pictures of the codes, or the file. '}
        {camera?.kind === 'unsupported' && 'This page has no camera here. Take pictures of the codes, or the file. '}
        {state.kind === 'reading' && `${state.have} of ${state.count} codes read.`}
      </p>
      {fault.value !== null && (
        <p class="notice caution" role="alert">
          {fault.value}
        </p>
      )}
      {state.kind === 'refused' && (
        <p class="notice caution" role="alert">
          {state.reason}
        </p>
      )}
      {state.kind === 'taken' && (
        <div class="panel" data-figure="taken-job" data-value={state.job.id}>
          <p>
            <strong>{state.job.text}</strong>, {state.job.name}
          </p>
          {state.matches === true && <p class="small">It is the version that the join code names.</p>}
          {state.matches === false && <p class="notice caution">It is NOT the version that the join code names. Ask for the right one, or keep this knowing that ships may fly another.</p>}
          {state.job.id !== jobId && <p class="small">It is another job than this address asks for.</p>}
          <div class="row">
            <button type="button" class="main" onClick={() => void keep(state)}>
              Keep it on this device
            </button>
            <button type="button" class="plain" onClick={() => taker.clear()}>
              Throw it away
            </button>
          </div>
        </div>
      )}
    </section>
  );
}
