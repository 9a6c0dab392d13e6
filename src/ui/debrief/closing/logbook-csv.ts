import type { LogbookLine } from '../../../app/debrief/logbook-shelf.ts';
import { rfc3339FromMilliseconds } from '../../../core/text/utc.ts';
import { poundsFromKilograms } from '../../../core/units/quantity.ts';

const COLUMNS = ['started_utc', 'job', 'text', 'kind', 'ship', 'hours', 'smoke_minutes', 'oil_pounds', 'strokes_flown', 'strokes_planned', 'complete', 'read'];

/** The logbook as CSV (RFC 4180), one line a flight; flights that were never debriefed have empty cells. */
export function logbookCsv(lines: readonly LogbookLine[]): string {
  const rows = lines.map(({ flight, entry }) =>
    [
      rfc3339FromMilliseconds(flight.startedAtMilliseconds),
      flight.name,
      entry?.text ?? '',
      flight.kind,
      entry?.shipName ?? '',
      entry === null ? '' : (entry.flownSeconds / 3600).toFixed(2),
      entry === null ? '' : (entry.smokeSeconds / 60).toFixed(1),
      entry === null ? '' : poundsFromKilograms(entry.oilKilograms).toFixed(1),
      entry === null ? '' : String(entry.strokesFlown),
      entry === null ? '' : String(entry.strokesPlanned),
      entry === null ? '' : entry.complete ? 'yes' : 'no',
      entry === null ? '' : entry.read,
    ]
      .map(cell)
      .join(','),
  );
  return `${[COLUMNS.join(','), ...rows].join('\r\n')}\r\n`;
}

function cell(text: string): string {
  const harmless = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless;
}
