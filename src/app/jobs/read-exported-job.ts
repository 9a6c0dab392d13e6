import type { Job } from '../../core/job/job.ts';
import { parseJob } from '../../core/job/parse-job.ts';
import { readBackup } from '../../store/backup/backup-stream.ts';
import type { StoredOverlay } from '../../store/overlays.ts';

export type ExportedJobReading =
  | { readonly ok: true; readonly job: Job; readonly overlay: StoredOverlay | null }
  | { readonly ok: false; readonly reason: string };

const MORE = 'This file holds more than one job. Import on Jobs takes it.';

/** The one job of a packed file, as `jobFile` makes it, with its overlay; or why not. Never throws. */
export async function readExportedJob(file: Pick<Blob, 'stream'>): Promise<ExportedJobReading> {
  let value: unknown = null;
  for await (const read of readBackup(file)) {
    if (read.kind === 'end') continue;
    if (read.kind === 'fault') return { ok: false, reason: read.reason };
    if (read.kind === 'damaged') return { ok: false, reason: `This file is damaged: ${read.name}. Ask for it again.` };
    // A whole backup is not read to its end.
    if (value !== null || read.entry.part !== 'job') return { ok: false, reason: MORE };
    ({ value } = read.entry);
  }
  const { job, overlay } = fieldsOf(value);
  const { fileText } = fieldsOf(job);
  const { fileName, text } = fieldsOf(overlay);
  const reading = parseJob(typeof fileText === 'string' ? fileText : '');
  if (!reading.ok) return reading;
  return { ok: true, job: reading.value, overlay: typeof text === 'string' ? { fileName: typeof fileName === 'string' ? fileName : '', text } : null };
}

function fieldsOf(value: unknown): Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null ? (value as Readonly<Record<string, unknown>>) : {};
}
