import type { Job } from '../../core/job/job.ts';
import { wholePartOf } from '../../core/job/merge-jobs.ts';
import { parseJob } from '../../core/job/parse-job.ts';
import { writeJob } from '../../core/job/write-job.ts';

/** An edited job that is not stored, and the stored one that was edited. */
export interface UnsavedEdit {
  readonly job: Job;
  readonly base: Job;
}

type Drawer = () => Pick<Storage, 'getItem' | 'setItem' | 'removeItem' | 'key' | 'length'>;

const START = 'quillwind-unsaved/';

/** Writes an edit down where writing is done before the next line runs; a browser that takes nothing is no fault. */
export function writeUnsaved(storage: Drawer, mark: string, { job, base }: UnsavedEdit): void {
  try {
    storage().setItem(START + mark, JSON.stringify([writeJob(wholePartOf(job, base)), writeJob(base)]));
  } catch {
    // The database may yet have it.
  }
}

export function dropUnsaved(storage: Drawer, mark: string): void {
  try {
    storage().removeItem(START + mark);
  } catch {
    // Taken up again it changes nothing.
  }
}

/**
 * Stores what was written down when pages went, and forgets each once it is stored. What no longer makes a job is left
 * where it is.
 */
export async function takeUpUnsaved(storage: Drawer, save: (edit: UnsavedEdit) => Promise<unknown>): Promise<void> {
  for (const mark of marksIn(storage)) {
    const edit = readUnsaved(storage, mark);
    if (edit === null) continue;
    await save(edit);
    dropUnsaved(storage, mark);
  }
}

function marksIn(storage: Drawer): string[] {
  try {
    const here = storage();
    return Array.from({ length: here.length }, (_, index) => here.key(index) ?? '').flatMap((key) => (key.startsWith(START) ? [key.slice(START.length)] : []));
  } catch {
    return [];
  }
}

function readUnsaved(storage: Drawer, mark: string): UnsavedEdit | null {
  try {
    const written: unknown = JSON.parse(storage().getItem(START + mark) ?? '');
    if (!Array.isArray(written)) return null;
    const [job, base] = written.map(parseJob);
    return job?.ok === true && base?.ok === true && job.value.id === base.value.id ? { job: job.value, base: base.value } : null;
  } catch {
    return null;
  }
}
