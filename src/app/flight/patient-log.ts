import { type ReadonlySignal, signal } from '@preact/signals';
import type { FlightLog } from '../../store/flight-log.ts';
import { storeFaultFrom } from '../../store/store-fault.ts';

type Entry = Parameters<FlightLog['append']>[0];

/** A flight's log that takes entries before it is open, and says when they are not being kept. */
export interface PatientLog {
  append(entry: Entry): void;
  /** True once nothing was saved for three seconds while entries wait, until all are. */
  readonly notSaving: ReadonlySignal<boolean>;
  /** Why the last attempt failed; empty when it did not. */
  readonly fault: ReadonlySignal<string>;
  /** The last row on disk; -1 for none. */
  readonly confirmedSequence: ReadonlySignal<number>;
  /** The row of the last entry taken; null before the log is open. */
  lastSequence(): number | null;
  /** Takes no more entries and resolves when those waiting are saved. */
  close(): Promise<void>;
}

const NOT_SAVING_MILLISECONDS = 3_000;
const PAUSE_MILLISECONDS = 1_000;

/** Opens the log, as often as it takes, and hands on what was appended meanwhile. */
export function createPatientLog(open: () => Promise<FlightLog>): PatientLog {
  const notSaving = signal(false);
  const fault = signal('');
  const confirmedSequence = signal(-1);
  let waiting: Entry[] = [];
  let log: FlightLog | null = null;
  let lastSequence: number | null = null;
  const alarm = setTimeout(() => {
    notSaving.value = true;
  }, NOT_SAVING_MILLISECONDS);

  const follow = (opened: FlightLog): void => {
    const { state, fault: lastFault } = opened.health();
    notSaving.value = state === 'not-saving';
    fault.value = lastFault?.message ?? '';
    confirmedSequence.value = opened.confirmedSequence();
  };
  const opening = (async () => {
    for (;;) {
      try {
        const opened = await open();
        clearTimeout(alarm);
        log = opened;
        opened.subscribe(() => follow(opened));
        for (const entry of waiting) lastSequence = opened.append(entry);
        waiting = [];
        follow(opened);
        return opened;
      } catch (error) {
        fault.value = storeFaultFrom(error).message;
        await new Promise((resolve) => setTimeout(resolve, PAUSE_MILLISECONDS));
      }
    }
  })();
  return {
    append(entry) {
      if (log === null) waiting.push(entry);
      else lastSequence = log.append(entry);
    },
    notSaving,
    fault,
    confirmedSequence,
    lastSequence: () => lastSequence,
    close: async () => (await opening).close(),
  };
}
