import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { readWitness, type Witnessed, writeWitness } from '../../store/witness.ts';
import type { JobsState } from './shelf-types.ts';

/** Jobs that were on this device and that nobody deleted. */
export interface LostJobs {
  readonly lost: ReadonlySignal<readonly Witnessed[]>;
  /** The person knows; they are not named again. */
  acknowledge(): void;
  end(): void;
}

/** Holds the stored jobs against what was last known of them, and writes down what is there as long as none is missed. */
export function watchLostJobs(state: ReadonlySignal<JobsState>, storage: () => Pick<Storage, 'getItem' | 'setItem'>): LostJobs {
  const known = signal(readWitness(storage));
  let compared = false;
  const lost = signal<readonly Witnessed[]>([]);
  const here = computed(() => (state.value.kind === 'ready' ? [...state.value.jobs, ...state.value.damaged] : null));
  const note = (): void => {
    if (here.peek() !== null) writeWitness(storage, here.peek() ?? []);
  };
  const end = here.subscribe((jobs) => {
    if (jobs === null) return;
    const ids = new Set(jobs.map(({ id }) => id));
    // Only what is missing at the first look was lost; what goes later is deleted by a person.
    if (!compared) lost.value = known.peek().filter(({ id }) => !ids.has(id));
    compared = true;
    if (lost.peek().length === 0) note();
  });
  return {
    lost,
    acknowledge() {
      lost.value = [];
      note();
    },
    end,
  };
}
