import { isGlare } from '../earth/glare.ts';
import { sunAt } from '../earth/sun.ts';
import type { Job } from '../job/job.ts';
import { millisecondsFromRfc3339 } from '../text/utc.ts';

/** What a stroke flown into the sun may cost before another way is taken: about a reposition. */
export const GLARE_SECONDS = 30;
/** How long a letter takes about (common practice, no source: a minute to a minute and a half). */
const LETTER_SECONDS = 70;

/**
 * The extra cost of a heading held on a stroke or its run-in: {@link GLARE_SECONDS} with a low sun within 25 degrees of
 * the nose, none otherwise. The sun is taken where it stands half-way through the writing, which ends at the read
 * time; it moves 4 degrees in a quarter of an hour. A penalty rather than a ban, because a curve may face the sun
 * whichever way it is flown. A read time that is none gives no penalty.
 *
 * @param letterCount letters to write; by one ship, or shared by all of the job's
 */
export function sunPenaltySeconds(job: Job, letterCount: number): (headingRadians: number) => number {
  const readMilliseconds = millisecondsFromRfc3339(job.readTime);
  if (readMilliseconds === null) return () => 0;
  const writingSeconds = (LETTER_SECONDS * letterCount) / Math.max(1, job.ships.length);
  const sun = sunAt(job.site, readMilliseconds - 500 * writingSeconds);
  return (headingRadians) => (isGlare(headingRadians, sun) ? GLARE_SECONDS : 0);
}
