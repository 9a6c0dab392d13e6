import './join.css';
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import { shareJob } from '../../app/link/share-job.ts';
import { keptOverlay } from '../../app/kept-overlay.ts';
import { joinAddress } from '../../app/link/join-address.ts';
import { jobDigest } from '../../app/link/job-digest.ts';
import type { Job } from '../../core/job/job.ts';
import { useApplication } from '../application-context.ts';
import { JobFrames } from './JobFrames.tsx';
import { QrPicture } from './QrPicture.tsx';

/**
 * How others join a job: a code with this app's address, the link's, and the job's digest; and ways to hand the job
 * itself over, with a network and without. Neither holds a name or a password.
 */
export function JoinCode({ job }: { readonly job: Job }): VNode {
  const { database, link } = useApplication();
  const digest = useSignal<string | null>(null);
  const frames = useSignal(false);
  const hasOverlay = useSignal(false);
  useEffect(() => {
    jobDigest(job).then(
      (known) => (digest.value = known),
      () => {},
    );
    keptOverlay(database, job.id)
      .read()
      .then(
        (overlay) => (hasOverlay.value = overlay !== null),
        () => {},
      );
  }, [job]);
  const settings = link.settings.value;
  const address = joinAddress({ jobId: job.id, digest: digest.value, linkAddress: settings?.on === true ? settings.address : null }, location);
  return (
    <section class="join-code" aria-label={`Join ${job.name}`}>
      <div class="join-code-body">
        <QrPicture text={address} description="Join code: scan it with a camera" />
        <div class="join-code-words">
          <p>
            Scanned with a camera it opens the Ground screen of this job{settings?.on === true ? ', with the link’s address filled in' : ''}. The job itself
            travels by file or by codes; names and passwords are told by mouth.
          </p>
          {isOwnMachine(location.hostname) && (
            <p class="notice caution small">
              This address works on this device only. Open the app by its address on the network first, or hand over the file or the codes.
            </p>
          )}
          {digest.value !== null && (
            <p class="small">
              Version of the job{' '}
              <strong class="join-digest" data-figure="job-digest" data-value={digest.value}>
                {digest.value.slice(0, 4)} {digest.value.slice(4, 8)}
              </strong>
              : the same eight figures on another device mean the same job.
            </p>
          )}
          {digest.value === null && (
            <p class="small">This page is not secure, so the job’s version cannot be worked out here. Compare text and read time by eye.</p>
          )}
          <p class="small join-address" data-figure="join-address" data-value={address}>
            {address}
          </p>
          <div class="row">
            <button type="button" onClick={() => void shareJob(database, job)}>
              Hand over the job’s file
            </button>
            <button type="button" aria-expanded={frames.value} onClick={() => (frames.value = !frames.value)}>
              {frames.value ? 'Hide the codes' : 'Show the job as codes'}
            </button>
          </div>
          {hasOverlay.value && (
            <p class="small" data-figure="overlay-travels">
              The file takes its no-go areas along; the codes do not.
            </p>
          )}
        </div>
      </div>
      {frames.value && <JobFrames job={job} digest={digest.value} />}
    </section>
  );
}

/** Whether a name means the very device that reads it. */
function isOwnMachine(hostname: string): boolean {
  return hostname === 'localhost' || hostname.endsWith('.localhost') || hostname === '127.0.0.1' || hostname === '[::1]';
}
