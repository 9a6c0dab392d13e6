import { madeOnce } from '../../core/text/made-once.ts';

/**
 * The one way hours are written on screens and sheets: 24 hours, in the zone of a place, which always stands beside
 * them, by its short name; in UTC for a zone nobody knows. What is no time is a dash.
 */

const NOT_KNOWN = '\u2013';

export interface ClockStyle {
  /** `11:03:20 EDT` instead of `11:03 EDT`. */
  readonly seconds?: boolean;
  /** `19 Jun 2027, 11:03 EDT`, or with the day of the week, `Sat 19 Jun 2027, 11:03 EDT`. */
  readonly day?: 'date' | 'weekday';
}

/** A time of day at a place: `clockText(at, 'America/New_York', { seconds: true })` is `13:30:05 EDT`. */
export function clockText(milliseconds: number, timeZone: string, style: ClockStyle = {}): string {
  if (!Number.isFinite(milliseconds)) return NOT_KNOWN;
  const { hours, zone, part } = partsAt(milliseconds, timeZone, style);
  const day = style.day === undefined ? '' : `${style.day === 'weekday' ? `${part('weekday')} ` : ''}${part('day')} ${part('month')} ${part('year')}, `;
  return `${day}${hours} ${zone}`;
}

/** Both, as sheets have it: `17:30:00 UTC (13:30 EDT)`; UTC alone where that is the place's zone. */
export function bothClocks(milliseconds: number, timeZone: string): string {
  const utc = clockText(milliseconds, 'UTC', { seconds: true });
  const local = clockText(milliseconds, timeZone);
  return !Number.isFinite(milliseconds) || local.endsWith(' UTC') ? utc : `${utc} (${local})`;
}

/** The day at a place: `Saturday, 19 June 2027`; followed by UTC for a zone nobody knows. */
export function dayText(milliseconds: number, timeZone: string): string {
  if (!Number.isFinite(milliseconds)) return NOT_KNOWN;
  const written = (zone: string): string =>
    new Intl.DateTimeFormat('en-GB', { timeZone: zone, weekday: 'long', day: 'numeric', month: 'long', year: 'numeric' }).format(milliseconds);
  try {
    return written(timeZone);
  } catch {
    return `${written('UTC')} UTC`;
  }
}

/** A day without its week and year, for a headline: `19 June`. */
export function shortDayText(milliseconds: number, timeZone: string): string {
  if (!Number.isFinite(milliseconds)) return NOT_KNOWN;
  const written = (zone: string): string => new Intl.DateTimeFormat('en-GB', { timeZone: zone, day: 'numeric', month: 'long' }).format(milliseconds);
  try {
    return written(timeZone);
  } catch {
    return written('UTC');
  }
}

/** The hours of a row that says its zone at its head, and that zone: `13:30` of `EDT`. */
export function clockInRow(milliseconds: number, timeZone: string): { readonly hours: string; readonly zone: string } {
  const { hours, zone } = partsAt(milliseconds, timeZone, {});
  return { hours, zone };
}

interface ClockParts {
  readonly hours: string;
  readonly zone: string;
  part(type: Intl.DateTimeFormatPartTypes): string;
}

/**
 * One for each zone and style: to make one takes many times as long as to write an hour with it. American English has the short
 * names of American zones; others come as GMT+2. Throws for a zone nobody knows.
 */
const formatOf = madeOnce(
  (timeZone: string, withSeconds: boolean, withDay: boolean) =>
    new Intl.DateTimeFormat('en-US', {
      timeZone,
      hour: '2-digit',
      minute: '2-digit',
      ...(withSeconds ? { second: '2-digit' as const } : {}),
      ...(withDay ? { weekday: 'short' as const, day: 'numeric' as const, month: 'short' as const, year: 'numeric' as const } : {}),
      hourCycle: 'h23',
      timeZoneName: 'short',
    }),
);

function partsAt(milliseconds: number, timeZone: string, style: ClockStyle): ClockParts {
  const written = (zone: string): ClockParts => {
    const parts = formatOf(zone, style.seconds === true, style.day !== undefined).formatToParts(milliseconds);
    const part = (type: Intl.DateTimeFormatPartTypes): string => parts.find((one) => one.type === type)?.value ?? '';
    const hours = `${part('hour')}:${part('minute')}${style.seconds === true ? `:${part('second')}` : ''}`;
    return { hours, zone: part('timeZoneName'), part };
  };
  try {
    return written(timeZone);
  } catch {
    return written('UTC');
  }
}
