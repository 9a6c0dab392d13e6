import type { FlightEvent } from '../../core/guidance/flight-event.ts';
import type { LogReading } from '../../store/read-log.ts';
import { flightEventFromRow } from '../flight/flight-event-from-row.ts';

/** A stretch of a log that was lost: shown as a gap. Wall clock, between the rows that stand on both sides. */
export interface LostStretch {
  readonly fromMilliseconds: number;
  readonly toMilliseconds: number;
  readonly rows: number;
}

/** A flight's log as the debrief takes it. */
export interface FlownEvents {
  readonly events: readonly FlightEvent[];
  readonly lost: readonly LostStretch[];
  /** Rows that say nothing this version understands. */
  readonly unreadRows: number;
  /** Damaged rows at the very end, which were being written when the page died. */
  readonly cutRows: number;
}

/** The events of a log, and what is missing of it. */
export function flownEventsFrom({ rows, gaps, cutSequences }: LogReading): FlownEvents {
  const events: FlightEvent[] = [];
  let unreadRows = 0;
  for (const { event } of rows) {
    const known = flightEventFromRow(event);
    if (known === null) unreadRows += 1;
    else events.push(known);
  }
  const lost = gaps.map(({ firstSequence, lastSequence }): LostStretch => {
    const after = rows.find(({ sequence }) => sequence > lastSequence);
    const before = rows.findLast(({ sequence }) => sequence < firstSequence);
    const known = before?.wallMilliseconds ?? after?.wallMilliseconds ?? 0;
    return { fromMilliseconds: known, toMilliseconds: after?.wallMilliseconds ?? known, rows: lastSequence - firstSequence + 1 };
  });
  return { events, lost, unreadRows, cutRows: cutSequences.length };
}
