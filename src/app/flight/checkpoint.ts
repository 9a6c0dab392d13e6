import type { GuidanceState } from '../../core/guidance/guidance-state.ts';
import type { Database } from '../../store/database.ts';
import { restoreFlight } from '../../store/flights.ts';
import type { StoredFlight } from '../../store/schema.ts';
import { readSetting, saveSetting } from '../../store/settings.ts';
import type { PatientLog } from './patient-log.ts';

/** The state that a flight's log leads to at one of its rows, kept so that not all of a long log must be flown again. */
export interface Checkpoint {
  readonly flightId: string;
  /** The row after which the state holds; it was on disk when this was kept. */
  readonly sequence: number;
  readonly state: GuidanceState;
}

const SETTING = 'flight-checkpoint';
const EVERY_MILLISECONDS = 10_000;

/**
 * What tells one build of the code from another: the name of the page's script, which its build derives from its
 * content. A state of another build is not gone on with.
 */
function codeMark(): string {
  return document.querySelector<HTMLScriptElement>('script[type="module"]')?.src ?? '';
}

/**
 * Keeps the flight's state every ten seconds, each time the one of ten seconds before, whose row is on disk by now.
 * What cannot be kept is only missed by a slower resumption. A flight whose data was cleared under it is stored anew,
 * to be found again by its checkpoint. The returned function ends it.
 */
export function keepCheckpoints(database: Database, flight: StoredFlight, readState: () => GuidanceState, log: PatientLog): () => void {
  const flightId = flight.id;
  let taken: Checkpoint | null = null;
  const timer = setInterval(() => {
    if (taken !== null && log.confirmedSequence.peek() >= taken.sequence) {
      saveSetting(database, SETTING, { ...taken, codeMark: codeMark() })
        .then(() => restoreFlight(database, flight))
        .catch(() => {});
      taken = null;
    }
    const sequence = log.lastSequence();
    if (taken === null && sequence !== null) taken = { flightId, sequence, state: readState() };
  }, EVERY_MILLISECONDS);
  return () => clearInterval(timer);
}

/** The last state kept of a flight by this very code; null for none. */
export async function readCheckpoint(database: Database, flightId: string): Promise<Checkpoint | null> {
  let stored: unknown;
  try {
    stored = await readSetting(database, SETTING);
  } catch {
    return null;
  }
  if (typeof stored !== 'object' || stored === null) return null;
  const found = stored as Partial<Record<keyof Checkpoint | 'codeMark', unknown>>;
  if (found.flightId !== flightId || found.codeMark !== codeMark() || typeof found.sequence !== 'number') return null;
  if (typeof found.state !== 'object' || found.state === null || !('phase' in found.state)) return null;
  return { flightId, sequence: found.sequence, state: found.state as GuidanceState };
}
