import type { Job } from '../../core/job/job.ts';
import { parseJob } from '../../core/job/parse-job.ts';
import { writeJob } from '../../core/job/write-job.ts';
import { newId } from '../new-id.ts';

/** A file as the picker or a drop gives it. */
export type JobFile = Pick<File, 'name' | 'size' | 'arrayBuffer'>;

/** Why one file cannot be taken. */
export interface RefusedFile {
  readonly fileName: string;
  readonly reason: string;
}

export type JobFilesReading =
  | { readonly ok: true; readonly jobs: readonly Job[] }
  | { readonly ok: false; readonly refused: readonly RefusedFile[]; readonly readableCount: number };

const SIZE_LIMIT_BYTES = 1_000_000;
const FILES_LIMIT = 50;
const LIMIT_MILLISECONDS = 1500;

/** The jobs of all files, or why some cannot be taken, within two seconds: then none of them is. */
export async function readJobFiles(files: readonly JobFile[]): Promise<JobFilesReading> {
  if (files.length > FILES_LIMIT) {
    return { ok: false, refused: [{ fileName: `${files.length} files`, reason: `At most ${FILES_LIMIT} files are taken at once.` }], readableCount: 0 };
  }
  const readings = await Promise.all(files.map(readJobFile));
  const refused = readings.filter((reading) => 'reason' in reading);
  const jobs = readings.filter((reading) => 'job' in reading).map(({ job }) => job);
  return refused.length === 0 ? { ok: true, jobs } : { ok: false, refused, readableCount: jobs.length };
}

async function readJobFile(file: JobFile): Promise<{ readonly job: Job } | RefusedFile> {
  const refuse = (reason: string): RefusedFile => ({ fileName: file.name, reason });
  // Known before a byte is read.
  if (file.size > SIZE_LIMIT_BYTES) return refuse('This file is larger than 1 MB, far more than a job needs. It was not opened.');
  const bytes = await within(file.arrayBuffer());
  if (bytes === null) return refuse('This file could not be read in time. If it lies in a cloud, open it there first, then import it again.');
  try {
    const reading = parseJob(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
    return reading.ok ? { job: reading.value } : refuse(reading.reason);
  } catch {
    return refuse('This is not a job file: it is not text in UTF-8.');
  }
}

function within(promise: Promise<ArrayBuffer>): Promise<ArrayBuffer | null> {
  return new Promise((resolve) => {
    const timer = setTimeout(() => resolve(null), LIMIT_MILLISECONDS);
    promise.then(resolve, () => resolve(null)).finally(() => clearTimeout(timer));
  });
}

/** The jobs that are not stored yet, each under its own id when that is free and under a new one when it is not. */
export function withFreeIds(jobs: readonly Job[], there: readonly Job[], taken: ReadonlySet<string>): Job[] {
  const known = new Set(there.map(writeJob));
  const used = new Set(taken);
  const fresh: Job[] = [];
  for (const job of jobs) {
    // The same file again changes nothing.
    if (known.has(writeJob(job))) continue;
    const placed = used.has(job.id) ? { ...job, id: newId() } : job;
    used.add(placed.id);
    known.add(writeJob(job));
    fresh.push(placed);
  }
  return fresh;
}
