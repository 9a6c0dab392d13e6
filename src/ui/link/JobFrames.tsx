import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect, useMemo } from 'preact/hooks';
import type { Job } from '../../core/job/job.ts';
import { framesFromText } from '../../core/wire/link-frames.ts';
import { withoutOffice } from '../../core/job/office-part.ts';
import { writeJob } from '../../core/job/write-job.ts';
import { QrPicture } from './QrPicture.tsx';

/** Long enough for a phone to see each, short enough that three rounds are a minute for a long job. */
const FRAME_MILLISECONDS = 700;

/** A job as a row of codes that follow one another until the other device has read them all. */
export function JobFrames({ job, digest }: { readonly job: Job; readonly digest: string | null }): VNode {
  const frames = useMemo(() => {
    try {
      return framesFromText(writeJob(withoutOffice(job)), digest?.slice(0, 8) ?? '0');
    } catch {
      return [];
    }
  }, [job, digest]);
  const index = useSignal(0);
  const running = useSignal(!matchMedia('(prefers-reduced-motion: reduce)').matches);
  useEffect(() => {
    if (!running.value || frames.length < 2) return undefined;
    const timer = setInterval(() => (index.value = (index.value + 1) % frames.length), FRAME_MILLISECONDS);
    return () => clearInterval(timer);
  }, [running.value, frames.length]);
  const shown = frames[index.value % Math.max(1, frames.length)];
  if (shown === undefined) return <p class="fault">This job is too long for codes. Hand over its file.</p>;
  const step = (by: number): void => {
    running.value = false;
    index.value = (index.value + by + frames.length) % frames.length;
  };
  return (
    <figure class="job-frames" data-frame={index.value + 1} data-frames={frames.length} data-text={shown}>
      <QrPicture text={shown} description={`Code ${index.value + 1} of ${frames.length} of the job`} />
      <figcaption>
        <p>
          Code {index.value + 1} of {frames.length}. On the other device: Jobs, “From another device”, “Read the codes”. Any order will do.
        </p>
        {frames.length > 1 && (
          <div class="row">
            <button type="button" onClick={() => step(-1)}>
              Back
            </button>
            <button type="button" onClick={() => (running.value = !running.value)}>
              {running.value ? 'Stop' : 'Run'}
            </button>
            <button type="button" onClick={() => step(1)}>
              Next
            </button>
          </div>
        )}
      </figcaption>
    </figure>
  );
}
