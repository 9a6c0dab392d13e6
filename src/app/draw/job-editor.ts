import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { Job } from '../../core/job/job.ts';

/** What became of the last edit. `held`: a job like this could not be opened again, so the stored one stays. */
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
}

export interface JobEditorOptions {
  readonly save: (job: Job) => Promise<void>;
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
const SAVE_AFTER_MILLISECONDS = 400;
const STEPS_KEPT = 200;

/** An editor on a stored job. One save runs at a time and the newest state follows it, so no older one overwrites. */
export function createJobEditor(stored: Job, { save, fault, nowMilliseconds, after }: JobEditorOptions): JobEditor {
  const job = signal(stored);
  const saveState = signal<SaveState>({ kind: 'saved' });
  const past = signal<readonly Step[]>([]);
  const future = signal<readonly Step[]>([]);
  let lastEdit = { name: '', atMilliseconds: -Infinity };
  let saved = stored;
  let running: Promise<void> | null = null;
  let cancelTimer: (() => void) | null = null;

  const run = async (): Promise<void> => {
    while (saved !== job.value) {
      const wanted = job.value;
      const reason = fault(wanted);
      if (reason !== null) {
        saveState.value = { kind: 'held', reason };
        return;
      }
      saveState.value = { kind: 'saving' };
      try {
        await save(wanted);
        saved = wanted;
        if (job.value === wanted) saveState.value = { kind: 'saved' };
      } catch (error) {
        saveState.value = { kind: 'failed', reason: error instanceof Error ? error.message : String(error) };
        return;
      }
    }
  };
  const flush = (): Promise<void> => {
    cancelTimer?.();
    cancelTimer = null;
    running ??= run().finally(() => {
      running = null;
    });
    return running;
  };
  const put = (next: Job): void => {
    job.value = next;
    if (saveState.value.kind === 'saved') saveState.value = { kind: 'saving' };
    cancelTimer?.();
    cancelTimer = after(SAVE_AFTER_MILLISECONDS, () => void flush());
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
  };
}
