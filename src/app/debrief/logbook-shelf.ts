import * as v from 'valibot';
import type { LogbookEntry } from '../../core/debrief/logbook.ts';
import type { Database } from '../../store/database.ts';
import { readFlights } from '../../store/flights.ts';
import type { StoredFlight } from '../../store/schema.ts';
import { readSetting, saveSetting } from '../../store/settings.ts';

const NUMBER = v.pipe(v.number(), v.finite(), v.minValue(0));
const SCHEMA = v.object({
  flightId: v.string(),
  jobId: v.string(),
  name: v.string(),
  text: v.string(),
  shipName: v.string(),
  kind: v.picklist(['flight', 'rehearsal', 'replay']),
  startedAtMilliseconds: v.pipe(v.number(), v.finite()),
  flownSeconds: NUMBER,
  smokeSeconds: NUMBER,
  oilKilograms: NUMBER,
  strokesFlown: NUMBER,
  strokesPlanned: NUMBER,
  complete: v.boolean(),
  read: v.picklist(['yes', 'in part', 'not rated']),
});

/** A flight with its entry; null for one that was never debriefed. */
export interface LogbookLine {
  readonly flight: StoredFlight;
  readonly entry: LogbookEntry | null;
}

/** The logbook as stored. */
export interface LogbookReading {
  /** Newest first. */
  readonly lines: readonly LogbookLine[];
  /** Flights that cannot be read, by name. */
  readonly damagedNames: readonly string[];
}

const settingOf = (flightId: string): string => `logbook/${flightId}`;

/** Every ended flight with its entry, where it has one. Rejects with a `StoreFault`. */
export async function readLogbook(database: Database): Promise<LogbookReading> {
  const { flights, damaged } = await readFlights(database);
  const ended = flights.filter(({ endedAtMilliseconds }) => endedAtMilliseconds !== null);
  const lines = await Promise.all(
    ended.map(async (flight): Promise<LogbookLine> => {
      const read = v.safeParse(SCHEMA, await readSetting(database, settingOf(flight.id)));
      return { flight, entry: read.success ? read.output : null };
    }),
  );
  return { lines, damagedNames: damaged.map(({ name }) => name) };
}

/** Stores the entry of a flight that was debriefed. Rejects with a `StoreFault`. */
export function saveLogbookEntry(database: Database, entry: LogbookEntry): Promise<void> {
  return saveSetting(database, settingOf(entry.flightId), entry);
}
