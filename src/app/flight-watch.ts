import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { Database } from '../store/database.ts';
import { readFlightInProgress } from '../store/flights.ts';
import type { StoredFlight } from '../store/schema.ts';
import { storeFaultFrom } from '../store/store-fault.ts';

/** Knows whether a flight is in progress, here or in another tab: then neither code nor schema may change. */
export interface FlightWatch {
  /** True also until the store has been asked. */
  readonly inProgress: ReadonlySignal<boolean>;
  /** Whether the store has answered: until then a broken-off flight may be found. */
  readonly asked: ReadonlySignal<boolean>;
  /** Why the store did not answer when it was last asked, in words; null while it does. */
  readonly fault: ReadonlySignal<string | null>;
  /** The stored flight that was begun and not ended; null for none. */
  readonly stored: ReadonlySignal<StoredFlight | null>;
  /** Says that this page flies, until the returned function is called. */
  begin(): () => void;
  /** Asks the store again, after a flight was begun or ended there. */
  refresh(): Promise<void>;
}

/** No sortie lasts longer; a flight left open since is no reason to hold an update back. */
export const FORGOTTEN_MILLISECONDS = 12 * 3_600_000;

export function createFlightWatch(database: Database, nowMilliseconds: () => number): FlightWatch {
  const flying = signal(0);
  const asked = signal(false);
  const stored = signal<StoredFlight | null>(null);
  const fault = signal<string | null>(null);
  const isFresh = (flight: StoredFlight | null): boolean => flight !== null && nowMilliseconds() - flight.startedAtMilliseconds < FORGOTTEN_MILLISECONDS;
  return {
    inProgress: computed(() => flying.value > 0 || !asked.value || isFresh(stored.value)),
    asked,
    stored,
    fault,
    begin() {
      let ended = false;
      flying.value += 1;
      return () => {
        if (!ended) flying.value -= 1;
        ended = true;
      };
    },
    async refresh() {
      try {
        stored.value = await readFlightInProgress(database);
        asked.value = true;
        fault.value = null;
      } catch (error) {
        // Unknown counts as in progress: nothing changes then.
        fault.value = storeFaultFrom(error).message;
      }
    },
  };
}
