import type { Job } from '../../core/job/job.ts';
import { writeJob } from '../../core/job/write-job.ts';
import type { Database } from '../../store/database.ts';
import { readOverlay } from '../../store/overlays.ts';
import { fileNameFrom, handOverFile, type MadeFile } from '../hand-over-file.ts';

/** Gives a job to the person as a file to keep. */
export async function exportJob(database: Database, job: Job, nowMilliseconds: number): Promise<void> {
  await handOverFile(await jobFile(database, job, nowMilliseconds));
}

/** A job as a file; with its overlay, where it has one, as a backup of that one job. */
export async function jobFile(database: Database, job: Job, nowMilliseconds: number): Promise<MadeFile> {
  const overlay = await readOverlay(database, job.id).catch(() => null);
  if (overlay === null) return { name: fileNameFrom(job.name, 'json'), type: 'application/json', content: writeJob(job) };
  const { backupStream } = await import('../../store/backup/backup-stream.ts');
  const value = { job: { id: job.id, name: job.name, savedAtMilliseconds: nowMilliseconds, fileText: writeJob(job) }, overlay };
  const parts = (async function* () {
    yield await Promise.resolve({ part: 'job' as const, key: job.id, value });
  })();
  const content = await new Response(backupStream(parts, nowMilliseconds)).blob();
  return { name: fileNameFrom(job.name, 'quillwind'), type: 'application/x-quillwind', content };
}
