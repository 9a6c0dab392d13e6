import { utcPartsFrom } from '../text/utc.ts';

/** One entry of a calendar. */
export interface CalendarEvent {
  /** Unique for ever: a later file with the same one replaces the entry. */
  readonly uid: string;
  readonly startMilliseconds: number;
  readonly endMilliseconds: number;
  readonly title: string;
  readonly place: string;
  readonly notes: string;
  /** Kept free, not decided. */
  readonly tentative: boolean;
  /** Rings so long before; null for no alarm. */
  readonly alarmSeconds: number | null;
  readonly latitudeDegrees: number | null;
  readonly longitudeDegrees: number | null;
}

/**
 * A calendar file, RFC 5545: times in UTC (form 2 of 3.3.5), text escaped (3.3.11), lines folded at 75 octets without
 * parting a character (3.1), CRLF.
 *
 * @param stampMilliseconds when it was made (3.8.7.2)
 */
export function writeCalendar(events: readonly CalendarEvent[], stampMilliseconds: number): string {
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Quillwind//Quillwind//EN',
    'CALSCALE:GREGORIAN',
    'METHOD:PUBLISH',
    ...events.flatMap((event) => eventLines(event, stampMilliseconds)),
    'END:VCALENDAR',
  ];
  return `${lines.map(folded).join('\r\n')}\r\n`;
}

function eventLines(event: CalendarEvent, stampMilliseconds: number): string[] {
  const { uid, startMilliseconds, endMilliseconds, title, place, notes, tentative, alarmSeconds, latitudeDegrees, longitudeDegrees } = event;
  if (!(endMilliseconds >= startMilliseconds)) throw new RangeError(`an event ends ${endMilliseconds} before it begins ${startMilliseconds}`);
  return [
    'BEGIN:VEVENT',
    `UID:${escaped(uid)}`,
    `DTSTAMP:${utcTime(stampMilliseconds)}`,
    `DTSTART:${utcTime(startMilliseconds)}`,
    `DTEND:${utcTime(endMilliseconds)}`,
    `SUMMARY:${escaped(title)}`,
    ...(place === '' ? [] : [`LOCATION:${escaped(place)}`]),
    ...(notes === '' ? [] : [`DESCRIPTION:${escaped(notes)}`]),
    ...(latitudeDegrees === null || longitudeDegrees === null ? [] : [`GEO:${latitudeDegrees.toFixed(6)};${longitudeDegrees.toFixed(6)}`]),
    `STATUS:${tentative ? 'TENTATIVE' : 'CONFIRMED'}`,
    ...(alarmSeconds === null
      ? []
      : ['BEGIN:VALARM', 'ACTION:DISPLAY', `DESCRIPTION:${escaped(title)}`, `TRIGGER:-PT${Math.round(alarmSeconds / 60)}M`, 'END:VALARM']),
    'END:VEVENT',
  ];
}

function utcTime(milliseconds: number): string {
  const { year, month, day, hour, minute, second } = utcPartsFrom(milliseconds);
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${String(year).padStart(4, '0')}${two(month)}${two(day)}T${two(hour)}${two(minute)}${two(second)}Z`;
}

function escaped(text: string): string {
  return text.replace(/[\\;,]/g, (character) => `\\${character}`).replace(/\r\n|\r|\n/g, '\\n');
}

const LINE_OCTETS = 75;

function folded(line: string): string {
  const parts: string[] = [];
  let part = '';
  let octets = 0;
  for (const character of line) {
    const code = character.codePointAt(0) ?? 0;
    const size = code < 0x80 ? 1 : code < 0x8_00 ? 2 : code < 0x1_00_00 ? 3 : 4;
    if (octets + size > LINE_OCTETS) {
      parts.push(part);
      // The space that begins a folded line counts.
      part = ' ';
      octets = 1;
    }
    part += character;
    octets += size;
  }
  return [...parts, part].join('\r\n');
}
