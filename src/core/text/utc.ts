const DAY_MILLISECONDS = 86_400_000;

/**
 * Days from 1970-01-01 to a date of the proleptic Gregorian calendar (H. Hinnant, "chrono-compatible low-level date
 * algorithms", 2014: `days_from_civil`). Exact for every year this format holds. `daysFromCivil(2000, 3, 1)` is 11,017.
 *
 * @param month 1 to 12
 * @param day 1 to 31; a day past the month's end runs on into the next
 */
export function daysFromCivil(year: number, month: number, day: number): number {
  const shiftedYear = month <= 2 ? year - 1 : year;
  const era = Math.floor(shiftedYear / 400);
  const yearOfEra = shiftedYear - era * 400;
  const dayOfYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + day - 1;
  return era * 146_097 + yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear - 719_468;
}

/** A date of the proleptic Gregorian calendar. */
export interface CivilDate {
  readonly year: number;
  /** 1 to 12. */
  readonly month: number;
  /** 1 to 31. */
  readonly day: number;
}

/** The date a number of days after 1970-01-01; the inverse of {@link daysFromCivil} (same source). */
export function civilFromDays(days: number): CivilDate {
  const shifted = days + 719_468;
  const era = Math.floor(shifted / 146_097);
  const dayOfEra = shifted - era * 146_097;
  const yearOfEra = Math.floor((dayOfEra - Math.floor(dayOfEra / 1460) + Math.floor(dayOfEra / 36_524) - Math.floor(dayOfEra / 146_096)) / 365);
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const shiftedMonth = Math.floor((5 * dayOfYear + 2) / 153);
  const month = shiftedMonth < 10 ? shiftedMonth + 3 : shiftedMonth - 9;
  return {
    year: yearOfEra + era * 400 + (month <= 2 ? 1 : 0),
    month,
    day: dayOfYear - Math.floor((153 * shiftedMonth + 2) / 5) + 1,
  };
}

/** The date and the time of day, in whole numbers, of a UTC instant. */
export interface UtcParts extends CivilDate {
  readonly hour: number;
  readonly minute: number;
  readonly second: number;
  readonly millisecond: number;
}

/** A UTC instant taken apart; fractions of a millisecond are rounded to the nearest. */
export function utcPartsFrom(timeMilliseconds: number): UtcParts {
  if (!Number.isFinite(timeMilliseconds)) throw new RangeError(`timeMilliseconds must be finite, not ${timeMilliseconds}`);
  const rounded = Math.round(timeMilliseconds);
  const days = Math.floor(rounded / DAY_MILLISECONDS);
  const ofDay = rounded - days * DAY_MILLISECONDS;
  return {
    ...civilFromDays(days),
    hour: Math.floor(ofDay / 3_600_000),
    minute: Math.floor(ofDay / 60_000) % 60,
    second: Math.floor(ofDay / 1000) % 60,
    millisecond: ofDay % 1000,
  };
}

/**
 * RFC 3339 text of a UTC instant, with milliseconds only when there are any.
 * `rfc3339FromMilliseconds(0)` is `1970-01-01T00:00:00Z`.
 *
 * @throws RangeError for a value that is not finite or a year outside 0 to 9999
 */
export function rfc3339FromMilliseconds(timeMilliseconds: number): string {
  const { year, month, day, hour, minute, second, millisecond } = utcPartsFrom(timeMilliseconds);
  if (year < 0 || year > 9999) throw new RangeError(`timeMilliseconds must lie in a year of four digits, not ${timeMilliseconds}`);
  const fraction = millisecond === 0 ? '' : `.${digits(millisecond, 3)}`;
  return `${digits(year, 4)}-${digits(month, 2)}-${digits(day, 2)}T${digits(hour, 2)}:${digits(minute, 2)}:${digits(second, 2)}${fraction}Z`;
}

const RFC_3339 = /^(\d{4})-(\d\d)-(\d\d)[Tt ](\d\d):(\d\d)(?::(\d\d)(?:[.,](\d{1,9}))?)?(?:[Zz]|([+-])(\d\d):?(\d\d))?$/;

/**
 * The UTC instant that RFC 3339 text names, or null for anything else. A text without a zone is taken as UTC, as GPX
 * wants it; a leap second (`:60`) is the second that follows; fractions are kept to the microsecond.
 * `millisecondsFromRfc3339('2026-06-20T12:00:00+02:00')` is the instant of `2026-06-20T10:00:00Z`.
 */
export function millisecondsFromRfc3339(text: string): number | null {
  const match = RFC_3339.exec(text);
  if (match === null) return null;
  const [, years, months, days, hours, minutes, seconds = '0', fraction = '', sign, zoneHours = '0', zoneMinutes = '0'] = match;
  const month = Number(months);
  const day = Number(days);
  const hour = Number(hours);
  const minute = Number(minutes);
  const second = Number(seconds);
  if (month < 1 || month > 12 || hour > 23 || minute > 59 || second > 60) return null;
  const civilDays = daysFromCivil(Number(years), month, day);
  if (day < 1 || civilFromDays(civilDays).month !== month) return null;
  const zoneMilliseconds = (sign === '-' ? -1 : 1) * (Number(zoneHours) * 60 + Number(zoneMinutes)) * 60_000;
  const fractionMilliseconds = fraction === '' ? 0 : Math.round(Number(`0.${fraction}`) * 1e6) / 1e3;
  return civilDays * DAY_MILLISECONDS + ((hour * 60 + minute) * 60 + second) * 1000 + fractionMilliseconds - zoneMilliseconds;
}

function digits(value: number, width: number): string {
  return String(value).padStart(width, '0');
}
