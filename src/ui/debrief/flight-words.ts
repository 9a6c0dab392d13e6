import type { DebriefedFlight } from '../../app/debrief/desk-types.ts';

const KINDS: Readonly<Record<DebriefedFlight['kind'], string>> = { flight: 'flight', rehearsal: 'rehearsal', replay: 'recording flown again' };

/** A time of day at the site, to the second, with the zone's short name: `11:03:20 EDT`; a dash for none. */
export function utcClock(milliseconds: number, timeZone: string): string {
  if (!Number.isFinite(milliseconds)) return '\u2013';
  return format(milliseconds, timeZone, { hour: '2-digit', minute: '2-digit', second: '2-digit', hourCycle: 'h23' });
}

/** A day and a time at the site: `17 Jul 2027, 11:03`. */
export function dayAndTime(milliseconds: number, timeZone: string): string {
  return format(milliseconds, timeZone, { day: 'numeric', month: 'short', year: 'numeric', hour: '2-digit', minute: '2-digit', hourCycle: 'h23' });
}

/** A flight in the list: when, and what kind. */
export function flightTitle({ startedAtMilliseconds, kind }: DebriefedFlight, timeZone: string): string {
  return `${dayAndTime(startedAtMilliseconds, timeZone)}, ${KINDS[kind]}`;
}

function format(milliseconds: number, timeZone: string, options: Intl.DateTimeFormatOptions): string {
  try {
    return new Intl.DateTimeFormat('en-GB', { ...options, timeZone }).format(milliseconds);
  } catch {
    // A zone that this browser does not know.
    return `${new Intl.DateTimeFormat('en-GB', { ...options, timeZone: 'UTC' }).format(milliseconds)} UTC`;
  }
}
