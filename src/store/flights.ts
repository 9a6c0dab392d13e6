import type { Database } from './database.ts';
import { packedLogKey, rowRange } from './log-keys.ts';
import type { FlightKind, StoredFlight } from './schema.ts';

/** A stored flight that cannot be read, by whatever name it still has. */
export interface DamagedFlight {
  readonly id: string;
  readonly name: string;
}

export interface FlightsReading {
  /** Newest first. */
  readonly flights: readonly StoredFlight[];
  readonly damaged: readonly DamagedFlight[];
}

const KINDS: readonly unknown[] = ['flight', 'rehearsal', 'replay'] satisfies FlightKind[];

/** Whether a stored value is a flight. */
export function isFlight(value: unknown): value is StoredFlight {
  if (typeof value !== 'object' || value === null) return false;
  const { id, jobId, name, kind, startedAtMilliseconds, endedAtMilliseconds, jobFileText, setupText } = value as Partial<Record<keyof StoredFlight, unknown>>;
  return (
    [id, jobId, name, jobFileText, setupText].every((text) => typeof text === 'string') &&
    KINDS.includes(kind) &&
    Number.isFinite(startedAtMilliseconds) &&
    (endedAtMilliseconds === null || Number.isFinite(endedAtMilliseconds))
  );
}

/** Stores a flight, in place of what it was. Rejects with a `StoreFault`. */
export async function saveFlight(database: Database, flight: StoredFlight): Promise<void> {
  await database.transact(['flights'], 'readwrite', (transaction) => transaction.objectStore('flights').put(flight));
}

/** Stores a flight where it is missing, as after the browser cleared the data. Rejects with a `StoreFault`. */
export async function restoreFlight(database: Database, flight: StoredFlight): Promise<void> {
  await database.transact(['flights'], 'readwrite', async (transaction) => {
    const store = transaction.objectStore('flights');
    if ((await store.getKey(flight.id)) === undefined) await store.put(flight);
  });
}

/** Every stored flight, damaged ones by name. Rejects with a `StoreFault`. */
export async function readFlights(database: Database): Promise<FlightsReading> {
  const [keys, values] = await database.transact(['flights'], 'readonly', async (transaction) => {
    const store = transaction.objectStore('flights');
    return [await store.getAllKeys(), (await store.getAll()) as unknown[]];
  });
  const flights: StoredFlight[] = [];
  const damaged: DamagedFlight[] = [];
  for (const [index, id] of keys.entries()) {
    const value = values[index];
    if (isFlight(value)) flights.push(value);
    else damaged.push({ id, name: nameOf(value) ?? id });
  }
  flights.sort((one, other) => other.startedAtMilliseconds - one.startedAtMilliseconds);
  return { flights, damaged };
}

/** The newest flight that was begun and not ended; null for none. */
export async function readFlightInProgress(database: Database): Promise<StoredFlight | null> {
  return (await readFlights(database)).flights.find(({ endedAtMilliseconds }) => endedAtMilliseconds === null) ?? null;
}

/** Removes a flight and its log, packed or not, all or none. Rejects with a `StoreFault`. */
export async function deleteFlight(database: Database, flightId: string): Promise<void> {
  await database.transact(['flights', 'rows', 'settings'], 'readwrite', async (transaction) => {
    await transaction.objectStore('flights').delete(flightId);
    await transaction.objectStore('rows').delete(rowRange(flightId));
    await transaction.objectStore('settings').delete(packedLogKey(flightId));
  });
}

function nameOf(value: unknown): string | null {
  if (typeof value !== 'object' || value === null || !('name' in value)) return null;
  return typeof value.name === 'string' ? value.name : null;
}
