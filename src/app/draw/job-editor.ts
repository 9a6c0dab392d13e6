import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { Job } from '../../core/job/job.ts';
import type { UnsavedEdit } from '../jobs/unsaved-edits.ts';
import { mergeJobs, wholePartOf, withVersion } from '../../core/job/merge-jobs.ts';

/** What became of the last edit. `held`: a job like this could not be opened again, so what is wrong in it stays as stored. */
type SaveState = { readonly kind: 'saved' | 'saving' } | { readonly kind: 'held' | 'failed'; readonly reason: string };

/** A job being edited: every edit shows at once, is saved soon after, and can be undone. */
export interface JobEditor {
  readonly job: ReadonlySignal<Job>;
  readonly saveState: ReadonlySignal<SaveState>;
  /** What undo would take back, in words; null when there is nothing to undo. */
  readonly undoName: ReadonlySignal<string | null>;
  /** What redo would bring back, in words; null when there is nothing to redo. */
  readonly redoName: ReadonlySignal<string | null>;
  /**
   * Changes the job. Edits of the same name within two seconds of each other undo as one, as typing a word does.
   */
  edit(name: string, change: (job: Job) => Job): void;
  undo(): void;
  redo(): void;
  /** Saves what is not saved yet, now; also when the page is left. Resolves when it is done or has failed. */
  flush(): Promise<void>;
  /** Takes in what another tab stored; edits of this one stand, and undo takes back this one's alone. */
  takeIn(stored: Job): void;
  /** What is not stored yet, and the stored job it was made from; null when all is. */
  unsaved(): UnsavedEdit | null;
}

export interface JobEditorOptions {
  /** Stores the job that was made from `base`; resolves with it as it is stored now, with what other tabs made of it. */
  readonly save: (job: Job, base: Job) => Promise<Job>;
  /** Why a job must not be stored, in words; null when it may be. */
  readonly fault: (job: Job) => string | null;
  readonly nowMilliseconds: () => number;
  /** Calls back after a while, as setTimeout does; returns what takes the call back. */
  readonly after: (milliseconds: number, call: () => void) => () => void;
}

interface Step {
  readonly name: string;
  readonly job: Job;
}

const TOGETHER_MILLISECONDS = 2000;
/** Once typing rests, and while it goes on: at most a second after a key it is on the disk (P20). */
const SAVE_AFTER_MILLISECONDS = 400;
const SAVE_WITHIN_MILLISECONDS = 600;
const STEPS_KEPT = 200;

/** An editor on a stored job. One save runs at a time and the newest state follows it, so no older one overwrites. */
export function createJobEditor(stored: Job, { save, fault, nowMilliseconds, after }: JobEditorOptions): JobEditor {
  const job = signal(stored);
  const saveState = signal<SaveState>({ kind: 'saved' });
  const past = signal<readonly Step[]>([]);
  const future = signal<readonly Step[]>([]);
  let lastEdit = { name: '', atMilliseconds: -Infinity };
  let saved = stored;
  let running = false;
  let ending: Promise<void> = Promise.resolve();
  let waitingFrom: number | null = null;
  let foreign: Job | null = null;
  let cancelTimer: (() => void) | null = null;

  /** Puts the stored job, with what others changed since `base`, under everything that was made here. */
  const standOn = (now: Job, base: Job): void => {
    const onto = (own: Job): Job => mergeJobs(base, now, own).job;
    const step = ({ name, job: before }: Step): Step => ({ name, job: onto(before) });
    const { job: next, conflicts } = mergeJobs(base, now, job.value);
    // Undo goes back to what was here then, and takes nothing of the others' with it.
    past.value = past.value.map(step);
    future.value = future.value.map(step);
    // What was typed here meanwhile, over what the others typed there, is to be met in the store, and offered.
    saved = conflicts.reduce((known, { at, before }) => withVersion(known, at, before), now);
    // Where nothing of its own is left over, the two are one, and nothing is unsaved.
    job.value = mergeJobs(saved, next, saved).job === saved ? saved : next;
  };

  const saveAll = async (): Promise<void> => {
    for (;;) {
      if (foreign !== null && foreign !== saved && job.value === saved) standOn(foreign, saved);
      foreign = null;
      if (job.value === saved) {
        saveState.value = { kind: 'saved' };
        return;
      }
      const reason = fault(job.value);
      // What is whole of it is stored all the same.
      const wanted = reason === null ? job.value : wholePartOf(job.value, saved);
      if (reason !== null) {
        saveState.value = { kind: 'held', reason };
        if (mergeJobs(saved, wanted, saved).job === saved) return;
      } else saveState.value = { kind: 'saving' };
      try {
        const now = await save(wanted, saved);
        if (now === wanted) saved = wanted;
        else standOn(now, wanted);
      } catch (error) {
        saveState.value = { kind: 'failed', reason: error instanceof Error ? error.message : String(error) };
        return;
      }
    }
  };
  const run = async (): Promise<void> => {
    running = true;
    try {
      // An edit that comes after the last look is seen here, in the very step that lets go.
      do await saveAll();
      while (job.value !== saved && saveState.value.kind === 'saving');
    } finally {
      running = false;
    }
  };
  const flush = (): Promise<void> => {
    cancelTimer?.();
    cancelTimer = null;
    waitingFrom = null;
    if (!running) ending = run();
    return ending;
  };
  const takeIn = (now: Job): void => {
    foreign = now;
    // What is edited here is put together with it in the store, and comes back from there.
    if (!running && now !== saved) void flush();
  };
  const schedule = (): void => {
    if (saveState.value.kind === 'saved') saveState.value = { kind: 'saving' };
    cancelTimer?.();
    const now = nowMilliseconds();
    waitingFrom ??= now;
    cancelTimer = after(Math.max(0, Math.min(SAVE_AFTER_MILLISECONDS, waitingFrom + SAVE_WITHIN_MILLISECONDS - now)), () => void flush());
  };
  const put = (next: Job): void => {
    job.value = next;
    schedule();
  };

  return {
    job,
    saveState,
    undoName: computed(() => past.value.at(-1)?.name ?? null),
    redoName: computed(() => future.value.at(-1)?.name ?? null),
    edit(name, change) {
      const before = job.value;
      const next = change(before);
      if (next === before) return;
      const now = nowMilliseconds();
      const together = lastEdit.name === name && now - lastEdit.atMilliseconds < TOGETHER_MILLISECONDS && past.value.length > 0;
      if (!together) past.value = [...past.value.slice(-(STEPS_KEPT - 1)), { name, job: before }];
      lastEdit = { name, atMilliseconds: now };
      future.value = [];
      put(next);
    },
    undo() {
      const step = past.value.at(-1);
      if (step === undefined) return;
      past.value = past.value.slice(0, -1);
      future.value = [...future.value, { name: step.name, job: job.value }];
      lastEdit = { name: '', atMilliseconds: -Infinity };
      put(step.job);
    },
    redo() {
      const step = future.value.at(-1);
      if (step === undefined) return;
      future.value = future.value.slice(0, -1);
      past.value = [...past.value, { name: step.name, job: job.value }];
      lastEdit = { name: '', atMilliseconds: -Infinity };
      put(step.job);
    },
    flush,
    takeIn,
    unsaved: () => (job.value === saved ? null : { job: job.value, base: saved }),
  };
}
