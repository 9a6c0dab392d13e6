import type { Job } from '../../core/job/job.ts';
import { parseJob } from '../../core/job/parse-job.ts';
import { writeJob } from '../../core/job/write-job.ts';

/** A copy of a job beside the database, for the day on which that does not answer. */
export interface SpareJob {
  readonly job: Job;
  readonly keptMilliseconds: number;
}

type Drawer = () => Pick<Storage, 'getItem' | 'setItem'>;

const KEY = 'quillwind-spare-jobs';
const KEPT = 3;
/** Browsers give five megabytes to all of it. */
const LONGEST_CHARACTERS = 400_000;

/** Keeps a copy of a job that was opened to be drawn or flown; the last three are kept. A browser that takes nothing is no fault. */
export function keepSpare(storage: Drawer, job: Job, nowMilliseconds: number): void {
  const text = writeJob(job);
  if (text.length > LONGEST_CHARACTERS) return;
  try {
    const others = readAll(storage).filter(([id]) => id !== job.id);
    storage().setItem(KEY, JSON.stringify([[job.id, nowMilliseconds, text], ...others].slice(0, KEPT)));
  } catch {
    // The database has it.
  }
}

/** The copy of a job; null when there is none that can be read. */
export function readSpare(storage: Drawer, jobId: string): SpareJob | null {
  const found = readAll(storage).find(([id]) => id === jobId);
  if (found === undefined) return null;
  const reading = parseJob(found[2]);
  return reading.ok && reading.value.id === jobId ? { job: reading.value, keptMilliseconds: found[1] } : null;
}

type Entry = readonly [id: string, keptMilliseconds: number, text: string];

function readAll(storage: Drawer): readonly Entry[] {
  try {
    const stored: unknown = JSON.parse(storage().getItem(KEY) ?? '[]');
    return Array.isArray(stored) ? stored.filter(isEntry) : [];
  } catch {
    return [];
  }
}

function isEntry(value: unknown): value is Entry {
  return Array.isArray(value) && typeof value[0] === 'string' && typeof value[1] === 'number' && typeof value[2] === 'string';
}
