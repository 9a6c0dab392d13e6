import type { Job } from '../../core/job/job.ts';
import { withoutOffice } from '../../core/job/office-part.ts';
import { writeJob } from '../../core/job/write-job.ts';

/**
 * What tells two revisions of a job apart: the first 24 hexadecimal digits (96 bits) of the SHA-256 of its file's
 * bytes, the office's part left out. Null on a page that is not secure, where browsers compute none.
 */
export async function jobDigest(job: Job): Promise<string | null> {
  const { subtle } = crypto as { readonly subtle?: SubtleCrypto };
  if (subtle === undefined) return null;
  const bytes = new Uint8Array(await subtle.digest('SHA-256', new TextEncoder().encode(writeJob(withoutOffice(job)))));
  return [...bytes.subarray(0, 12)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
