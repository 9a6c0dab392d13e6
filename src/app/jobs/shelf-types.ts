import type { ReadonlySignal } from '@preact/signals';
import type { Job } from '../../core/job/job.ts';
import type { DamagedJob } from '../../store/jobs.ts';
import type { JobFile, RefusedFile } from './import-job-files.ts';

/** The stored jobs as last read. */
export type JobsState =
  | { readonly kind: 'loading' }
  | { readonly kind: 'ready'; readonly jobs: readonly Job[]; readonly damaged: readonly DamagedJob[] }
  | { readonly kind: 'failed'; readonly reason: string };

/** What became of the last thing done to the jobs. */
export type ShelfNotice =
  | { readonly kind: 'imported'; readonly names: readonly string[] }
  | { readonly kind: 'refused'; readonly refused: readonly RefusedFile[]; readonly readableCount: number }
  | { readonly kind: 'removed'; readonly name: string }
  | { readonly kind: 'failed'; readonly what: string; readonly reason: string };

/** All jobs, and everything that is done to them. */
export interface JobShelf {
  readonly state: ReadonlySignal<JobsState>;
  readonly notice: ReadonlySignal<ShelfNotice | null>;
  dismissNotice(): void;
  /** Reads the jobs anew; the demo job is stored before the first reading of all. */
  refresh(): Promise<void>;
  /** A job of the last reading; null when there is none with this id. */
  find(jobId: string): Job | null;
  /**
   * Stores an edited job beside what other tabs made of it, and resolves with it as it is stored now. `base` is the job
   * that was edited; when left out, the one of the last reading. Rejects with a `StoreFault`.
   */
  save(job: Job, base?: Job): Promise<Job>;
  /** The new job, or null when it could not be stored; the notice then says why. */
  create(): Promise<Job | null>;
  duplicate(jobId: string): Promise<Job | null>;
  remove(jobId: string): Promise<void>;
  /** Brings back what was removed last, as long as the notice of it stands. */
  undoRemove(): Promise<void>;
  /** Takes all files or none; the notice says which and why. */
  importFiles(files: readonly JobFile[]): Promise<void>;
}

/** How the tabs of one browser tell each other that the stored jobs have changed. */
export interface JobNews {
  tell(): void;
  onTold(listener: () => void | Promise<void>): void;
}
