import type { LogRow } from '../core/guidance/log-row.ts';
import { rowChecksum } from './row-checksum.ts';
import type { StoredRow } from './schema.ts';

/** A stored row as it goes into the database. Throws RangeError when the row cannot be written as JSON. */
export function storedFromLogRow(flightId: string, row: LogRow): StoredRow {
  const { sequence, monotonicSeconds, wallMilliseconds } = row;
  if (!Number.isFinite(monotonicSeconds)) throw new RangeError(`monotonicSeconds is ${monotonicSeconds}`);
  if (!Number.isFinite(wallMilliseconds)) throw new RangeError(`wallMilliseconds is ${wallMilliseconds}`);
  const eventText: string | undefined = JSON.stringify(row.event);
  if (eventText === undefined) throw new RangeError(`event is ${typeof row.event}`);
  const unsigned = { flightId, sequence, monotonicSeconds, wallMilliseconds, eventText };
  return { ...unsigned, checksum: rowChecksum(unsigned) };
}

/** The row that was written, or null when what is stored is not it: the inverse of {@link storedFromLogRow}. */
export function logRowFromStored(stored: unknown): LogRow | null {
  if (typeof stored !== 'object' || stored === null) return null;
  const { flightId, sequence, monotonicSeconds, wallMilliseconds, eventText, checksum } = stored as Partial<Record<keyof StoredRow, unknown>>;
  if (typeof flightId !== 'string' || typeof eventText !== 'string') return null;
  if (typeof sequence !== 'number' || typeof monotonicSeconds !== 'number' || typeof wallMilliseconds !== 'number') return null;
  if (checksum !== rowChecksum({ flightId, sequence, monotonicSeconds, wallMilliseconds, eventText })) return null;
  try {
    return { sequence, monotonicSeconds, wallMilliseconds, event: JSON.parse(eventText) as unknown };
  } catch {
    return null;
  }
}
