import type { Job } from '../../core/job/job.ts';
import { withoutOffice, withOfficeOf } from '../../core/job/office-part.ts';
import { writeJob } from '../../core/job/write-job.ts';
import type { StoredOverlay } from '../../store/overlays.ts';
import type { JobShelf } from '../jobs/shelf-types.ts';
import type { KeptOverlay } from '../kept-overlay.ts';

/** Whether two revisions of a job are one to the ships and the ground. */
export const isSameRevision = (one: Job, other: Job): boolean => writeJob(withoutOffice(one)) === writeJob(withoutOffice(other));

/**
 * Stores a job that came from another device, with the overlay that came along; one without leaves what is kept here. What
 * differs here stays as a copy. False where that copy could not be made: then nothing was stored. Rejects with a `StoreFault`.
 */
export async function keepTaken(
  { job, overlay }: { readonly job: Job; readonly overlay: StoredOverlay | null },
  jobs: Pick<JobShelf, 'find' | 'duplicate' | 'save'>,
  kept: KeptOverlay,
): Promise<boolean> {
  const there = jobs.find(job.id);
  const overlayThere = there === null || overlay === null ? null : await kept.read();
  const isReplaced = overlayThere !== null && overlayThere.text !== overlay?.text;
  if (there !== null && (isReplaced || !isSameRevision(there, job)) && (await jobs.duplicate(there.id)) === null) return false;
  await jobs.save(there === null ? job : withOfficeOf(job, there.booking));
  if (overlay !== null) await kept.save(overlay);
  return true;
}
