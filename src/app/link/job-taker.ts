import { type ReadonlySignal, signal } from '@preact/signals';
import type { Job } from '../../core/job/job.ts';
import { type FrameCollection, frameFromText, textFromFrames, withFrame } from '../../core/wire/link-frames.ts';
import { parseJob } from '../../core/job/parse-job.ts';
import type { StoredOverlay } from '../../store/overlays.ts';
import { readJobFiles } from '../jobs/import-job-files.ts';
import { readExportedJob } from '../jobs/read-exported-job.ts';
import { sortFiles } from '../jobs/sort-files.ts';
import { jobDigest } from './job-digest.ts';
import { joinFromAddress, type JoinCode } from './join-address.ts';

/** How far a job has come to this device. */
export type TakerState =
  | { readonly kind: 'empty' }
  | { readonly kind: 'reading'; readonly have: number; readonly count: number }
  /** Whole and checked. `matches` against the wanted digest: null where there was none to match. */
  | { readonly kind: 'taken'; readonly job: Job; readonly overlay: StoredOverlay | null; readonly matches: boolean | null }
  | { readonly kind: 'refused'; readonly reason: string };

/** Takes a job from codes or a file, checks it, and keeps nothing: storing it is a touch of its own. */
export interface JobTaker {
  readonly state: ReadonlySignal<TakerState>;
  /** What a join code said, when one was read. */
  readonly join: ReadonlySignal<JoinCode | null>;
  /** A code's text, as often as it is read. */
  takeCode(text: string): void;
  takeFile(file: File): Promise<void>;
  clear(): void;
}

export function createJobTaker(wantedDigest: string | null): JobTaker {
  const state = signal<TakerState>({ kind: 'empty' });
  const join = signal<JoinCode | null>(null);
  let collection: FrameCollection | null = null;

  async function take(job: Job, overlay: StoredOverlay | null = null): Promise<void> {
    const wanted = join.peek()?.digest ?? wantedDigest;
    const digest = await jobDigest(job).catch(() => null);
    state.value = { kind: 'taken', job, overlay, matches: wanted === null || digest === null ? null : wanted === digest };
  }

  return {
    state,
    join,
    takeCode(text) {
      const frame = frameFromText(text);
      if (frame === null) {
        join.value = joinFromAddress(text) ?? join.peek();
        return;
      }
      const before = collection;
      collection = withFrame(collection, frame);
      // The camera reads the same code many times.
      if (before !== null && before.set === collection.set && before.data.size === collection.data.size) return;
      state.value = { kind: 'reading', have: collection.data.size, count: collection.count };
      if (collection.data.size < collection.count) return;
      const whole = textFromFrames(collection);
      collection = null;
      const reading = whole.ok ? parseJob(whole.value) : null;
      if (reading?.ok === true) void take(reading.value);
      else state.value = { kind: 'refused', reason: reading?.reason ?? 'These codes do not make a whole file. Read them again.' };
    },
    async takeFile(file) {
      // What Export makes of a job with an overlay is packed.
      if ((await sortFiles([file])).backups.length > 0) {
        const packed = await readExportedJob(file);
        if (packed.ok) await take(packed.job, packed.overlay);
        else state.value = { kind: 'refused', reason: packed.reason };
        return;
      }
      const reading = await readJobFiles([file]);
      const job = reading.ok ? reading.jobs[0] : undefined;
      if (job !== undefined) await take(job);
      else state.value = { kind: 'refused', reason: reading.ok ? 'This file holds no job.' : (reading.refused[0]?.reason ?? 'This file cannot be read.') };
    },
    clear() {
      collection = null;
      state.value = { kind: 'empty' };
    },
  };
}
