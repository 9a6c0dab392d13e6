import type { LogRow } from '../core/guidance/log-row.ts';
import type { Database } from './database.ts';
import { packedLogKey, rowRange } from './log-keys.ts';
import { type LogReading, readLog } from './read-log.ts';
import { readSetting, saveSetting } from './settings.ts';

/**
 * A log that has ended, packed into a few arrays beside its rows: a hundred thousand rows take seconds to read, these a
 * tenth of one. The rows remain what counts; the packing is made from them and made anew when it is missing or damaged.
 */
export interface PackedLog {
  readonly version: 1;
  readonly flightId: string;
  /** Of the rows it was made from. */
  readonly storedRows: number;
  readonly nextSequence: number;
  readonly gaps: LogReading['gaps'];
  readonly damagedSequences: readonly number[];
  readonly cutSequences: readonly number[];
  /** One for each row. */
  readonly sequences: Float64Array;
  readonly monotonicSeconds: Float64Array;
  readonly wallMilliseconds: Float64Array;
  /** What each row holds: 0 a tick of the clock, 1 a fix, 2 anything else. */
  readonly kinds: Uint8Array;
  /** Of ticks and fixes, whose events repeat the row's times with more care: seconds and milliseconds, in turn. */
  readonly eventTimes: Float64Array;
  /** Seven numbers a fix, NaN for null. */
  readonly fixes: Float64Array;
  /** JSON of the others, in order. */
  readonly others: readonly string[];
}

const TICK = 0;
const FIX = 1;
const OTHER = 2;
const FIX_KEYS = [
  'latitudeDegrees',
  'longitudeDegrees',
  'accuracyMetres',
  'altitudeMetres',
  'groundSpeedMetresPerSecond',
  'trackDegrees',
  'stampMilliseconds',
] as const;

/** Receivers always give place and accuracy. */
const FIRST_NULLABLE = 3;

/** A log that has ended, as it was read. */
export interface EndedLog {
  readonly reading: LogReading;
  /**
   * Packs it for next time; for whenever there is a moment, since the reading at hand gains nothing by it. Null where it
   * was read from a packing.
   */
  readonly pack: (() => Promise<void>) | null;
}

/** Reads the log of a flight that has ended: packed where it was packed before, else row by row. */
export async function readEndedLog(database: Database, flightId: string): Promise<EndedLog> {
  const [stored, storedRows, lastSequence] = await Promise.all([
    readSetting(database, packedLogKey(flightId)).catch(() => null),
    countRows(database, flightId),
    readLastSequence(database, flightId),
  ]);
  const packed = packedFromStored(stored, flightId);
  if (packed !== null && packed.storedRows === storedRows && packed.nextSequence === lastSequence + 1)
    return { reading: readingFromPacked(packed), pack: null };
  const reading = await readLog(database, flightId);
  return {
    reading,
    // Only a convenience: whoever finds no room for it reads the rows again.
    pack: () => saveSetting(database, packedLogKey(flightId), packedFromReading(flightId, storedRows, reading)).catch(() => {}),
  };
}

function countRows(database: Database, flightId: string): Promise<number> {
  return database.transact(['rows'], 'readonly', (transaction) => transaction.objectStore('rows').count(rowRange(flightId)));
}

async function readLastSequence(database: Database, flightId: string): Promise<number> {
  const key = await database.transact(
    ['rows'],
    'readonly',
    async (transaction) => (await transaction.objectStore('rows').openKeyCursor(rowRange(flightId), 'prev'))?.primaryKey ?? null,
  );
  return key === null ? -1 : key[1];
}

/** Packs a reading; the inverse of {@link readingFromPacked}. */
export function packedFromReading(flightId: string, storedRows: number, { rows, gaps, damagedSequences, cutSequences, nextSequence }: LogReading): PackedLog {
  const kinds = Uint8Array.from(rows, ({ event }) => kindOf(event));
  const eventTimes: number[] = [];
  const fixes: number[] = [];
  const others: string[] = [];
  for (const [index, { event }] of rows.entries()) {
    if (kinds[index] === OTHER) {
      others.push(JSON.stringify(event));
      continue;
    }
    const { atSeconds, wallMilliseconds, fix } = event as { atSeconds: number; wallMilliseconds: number; fix?: Record<string, number | null> };
    eventTimes.push(atSeconds, wallMilliseconds);
    if (fix !== undefined) for (const key of FIX_KEYS) fixes.push(fix[key] ?? Number.NaN);
  }
  return {
    version: 1,
    flightId,
    storedRows,
    nextSequence,
    gaps,
    damagedSequences,
    cutSequences,
    sequences: Float64Array.from(rows, ({ sequence }) => sequence),
    monotonicSeconds: Float64Array.from(rows, ({ monotonicSeconds }) => monotonicSeconds),
    wallMilliseconds: Float64Array.from(rows, ({ wallMilliseconds }) => wallMilliseconds),
    kinds,
    eventTimes: Float64Array.from(eventTimes),
    fixes: Float64Array.from(fixes),
    others,
  };
}

/** Which columns hold an event: only what comes out of them as it went in. */
function kindOf(event: unknown): number {
  if (typeof event !== 'object' || event === null) return OTHER;
  const { kind, atSeconds, wallMilliseconds, fix, ...more } = event as Record<string, unknown>;
  if (!Number.isFinite(atSeconds) || !Number.isFinite(wallMilliseconds) || Object.keys(more).length > 0) return OTHER;
  if (kind === 'clockAdvanced' && fix === undefined) return TICK;
  if (kind !== 'fixReceived' || typeof fix !== 'object' || fix === null) return OTHER;
  const values = fix as Record<string, unknown>;
  const isPlain =
    Object.keys(values).length === FIX_KEYS.length &&
    FIX_KEYS.every((key, index) => Number.isFinite(values[key]) || (values[key] === null && index >= FIRST_NULLABLE));
  return isPlain ? FIX : OTHER;
}

/** The reading that was packed. */
export function readingFromPacked(packed: PackedLog): LogReading {
  const { sequences, monotonicSeconds, wallMilliseconds, kinds, eventTimes, fixes, others, gaps, damagedSequences, cutSequences, nextSequence } = packed;
  const rows: LogRow[] = [];
  let timesAt = 0;
  let fixAt = 0;
  let otherAt = 0;
  const at = (column: Float64Array, place: number): number => column[place] ?? Number.NaN;
  const orNull = (value: number): number | null => (Number.isNaN(value) ? null : value);
  for (let index = 0; index < sequences.length; index += 1) {
    let event: unknown;
    if (kinds[index] === OTHER) {
      event = JSON.parse(others[otherAt] ?? 'null') as unknown;
      otherAt += 1;
    } else {
      const times = { atSeconds: at(eventTimes, timesAt), wallMilliseconds: at(eventTimes, timesAt + 1) };
      timesAt += 2;
      if (kinds[index] === TICK) event = { kind: 'clockAdvanced', ...times };
      else {
        event = {
          kind: 'fixReceived',
          fix: {
            latitudeDegrees: at(fixes, fixAt),
            longitudeDegrees: at(fixes, fixAt + 1),
            accuracyMetres: at(fixes, fixAt + 2),
            altitudeMetres: orNull(at(fixes, fixAt + 3)),
            groundSpeedMetresPerSecond: orNull(at(fixes, fixAt + 4)),
            trackDegrees: orNull(at(fixes, fixAt + 5)),
            stampMilliseconds: orNull(at(fixes, fixAt + 6)),
          },
          ...times,
        };
        fixAt += FIX_KEYS.length;
      }
    }
    rows.push({ sequence: at(sequences, index), monotonicSeconds: at(monotonicSeconds, index), wallMilliseconds: at(wallMilliseconds, index), event });
  }
  return { rows, gaps, damagedSequences, cutSequences, nextSequence };
}

/** What is stored under a flight's packing, or null where it is none or its arrays do not fit each other. */
function packedFromStored(stored: unknown, flightId: string): PackedLog | null {
  if (typeof stored !== 'object' || stored === null) return null;
  const found = stored as PackedLog;
  if (found.version !== 1 || found.flightId !== flightId || !Number.isInteger(found.storedRows) || !Number.isInteger(found.nextSequence)) return null;
  if (![found.sequences, found.monotonicSeconds, found.wallMilliseconds, found.eventTimes, found.fixes].every((column) => column instanceof Float64Array))
    return null;
  if (!(found.kinds instanceof Uint8Array) || ![found.gaps, found.damagedSequences, found.cutSequences, found.others].every(Array.isArray)) return null;
  const count = found.sequences.length;
  const counted = (kind: number): number => found.kinds.reduce((sum, each) => sum + (each === kind ? 1 : 0), 0);
  const fits =
    [found.monotonicSeconds.length, found.wallMilliseconds.length, found.kinds.length].every((length) => length === count) &&
    counted(OTHER) === found.others.length &&
    counted(FIX) * FIX_KEYS.length === found.fixes.length &&
    (counted(TICK) + counted(FIX)) * 2 === found.eventTimes.length;
  return fits ? found : null;
}
