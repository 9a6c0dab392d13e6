import './join.css';
import { counted } from '../../core/text/counted.ts';
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import { createCodeScanner } from '../../app/ground/code-scanner.ts';
import { createJobTaker, type TakerState } from '../../app/link/job-taker.ts';
import { joinAddress, type JoinCode } from '../../app/link/join-address.ts';
import { isSameRevision, keepTaken } from '../../app/link/keep-taken.ts';
import { keptOverlay } from '../../app/kept-overlay.ts';
import { writtenWords } from '../../core/job/written-words.ts';
import { useApplication } from '../application-context.ts';
import { FileButton } from '../fields/FileButton.tsx';

export interface JobTakingProps {
  /** The job that is wanted; null for whichever comes. */
  readonly jobId: string | null;
  /** What the job must be, by its join code; null when that is not known. */
  readonly digest: string | null;
}

/** Takes a job from another device with no network: by its codes, by pictures of them, or by its file. */
export function JobTaking({ jobId, digest }: JobTakingProps): VNode {
  const { database, jobs, go } = useApplication();
  const taker = useMemo(() => createJobTaker(digest), [digest]);
  const scanner = useMemo(() => createCodeScanner(taker.takeCode), [taker]);
  const video = useRef<HTMLVideoElement>(null);
  const fault = useSignal<string | null>(null);
  useEffect(() => () => scanner.stop(), [scanner]);
  const state = taker.state.value;
  useEffect(() => {
    if (state.kind === 'taken') scanner.stop();
  }, [state.kind]);
  const keep = async (taken: Extract<TakerState, { kind: 'taken' }>): Promise<void> => {
    const { job } = taken;
    try {
      if (!(await keepTaken(taken, jobs, keptOverlay(database, job.id)))) return;
      taker.clear();
      if (job.id !== jobId) go({ screen: 'ground', jobId: job.id });
    } catch (error) {
      fault.value = error instanceof Error ? error.message : String(error);
    }
  };
  const camera = scanner.camera.value;
  return (
    <div class="job-taking">
      <p>
        On the device that has the job: Jobs or Brief, “To another device”, then “Show the job as codes”, and read them here; or its file by any way that files
        go. Neither needs a network.
      </p>
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
        <FileButton
          label="Pictures of codes"
          multiple
          accept="image/*"
          onFiles={(files) =>
            void scanner
              .readPictures(files)
              .then(
                (found) =>
                  (fault.value = found === files.length ? null : `No code can be read in ${files.length - found} of ${counted(files.length, 'picture')}.`),
              )
          }
        >
          Codes from pictures
        </FileButton>
        <FileButton
          label="Job file to take"
          accept=".json,application/json,.quillwind"
          onFiles={([chosen]) => {
            if (chosen !== undefined) void taker.takeFile(chosen);
          }}
        >
          The job’s file
        </FileButton>
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
      {state.kind === 'empty' && taker.join.value !== null && <JoinRead join={taker.join.value} />}
      {state.kind === 'taken' && (
        <div class="panel" data-figure="taken-job" data-value={state.job.id}>
          <p>
            <strong>{writtenWords(state.job)}</strong>, {state.job.name}
          </p>
          <TakenVersion taken={state} jobId={jobId} />
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
    </div>
  );
}

/** Whether what came is what is wanted, and what keeping it does to what is here. */
function TakenVersion({
  taken: { job, overlay, matches },
  jobId,
}: {
  readonly taken: Extract<TakerState, { kind: 'taken' }>;
  readonly jobId: string | null;
}): VNode {
  const { jobs } = useApplication();
  const there = jobs.find(job.id);
  const same = there !== null && isSameRevision(there, job);
  return (
    <>
      {matches === true && <p class="small">It is the version that the join code names.</p>}
      {matches === false && (
        <p class="notice caution">It is NOT the version that the join code names. Ask for the right one, or keep this knowing that ships may fly another.</p>
      )}
      {jobId !== null && job.id !== jobId && <p class="small">It is another job than this address asks for.</p>}
      {overlay !== null && <p class="small">Its overlay of areas and landmarks came along.</p>}
      {same && <p class="small">It is on this device already, just so.</p>}
      {there !== null && !same && <p class="small">Another version of it is on this device. This one takes its place; the other stays as a copy.</p>}
    </>
  );
}

/** A join code came before the job itself: go there, or say what comes next. */
function JoinRead({ join }: { readonly join: JoinCode }): VNode {
  const { jobs } = useApplication();
  const job = jobs.find(join.jobId);
  if (job === null) {
    return (
      <p class="notice" role="status" data-figure="join-read" data-value={join.jobId}>
        That was the join code of a job that is not on this device yet. Read the codes of the job itself next, or take its file.
      </p>
    );
  }
  return (
    <div class="notice" role="status" data-figure="join-read" data-value={join.jobId}>
      <p>
        That was the join code of <strong>{writtenWords(job)}</strong>, {job.name}, which is on this device.
      </p>
      <button type="button" onClick={() => (location.hash = new URL(joinAddress(join, location)).hash)}>
        Open its Ground screen
      </button>
    </div>
  );
}
