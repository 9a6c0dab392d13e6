import type { Job } from '../../core/job/job.ts';
import { withoutOffice } from '../../core/job/office-part.ts';
import type { Database } from '../../store/database.ts';
import { handOverFile, type MadeFile } from '../hand-over-file.ts';
import { jobFile } from '../jobs/export-job.ts';

/** A job's file for another device: its overlay goes along, the office's part does not. */
export function fileForOthers(database: Database, job: Job): Promise<MadeFile> {
  return jobFile(database, withoutOffice(job), Date.now());
}

/** Hands it over through the share sheet where there is one, else as a download. */
export async function shareJob(database: Database, job: Job): Promise<void> {
  const made = await fileForOthers(database, job);
  const file = new File([made.content], made.name, { type: made.type });
  if (navigator.canShare?.({ files: [file] })) {
    try {
      await navigator.share({ files: [file] });
      return;
    } catch (error) {
      if (error instanceof DOMException && error.name === 'AbortError') return;
    }
  }
  await handOverFile(made);
}
