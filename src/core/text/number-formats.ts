import { madeOnce } from './made-once.ts';

/**
 * How numbers are written on the screens: the device's own decimal sign, grouped thousands, no digit that is not known. Every value
 * that is not finite is written as a dash.
 */

const NOT_KNOWN = '\u2013';

/**
 * Whether this device writes decimals with a comma. Thousands are then parted by a narrow space (ISO 80000-1), never by a
 * point: 3.200 m are three thousand to one reader and three to the next.
 */
const DECIMAL_COMMA = (1.5).toLocaleString(undefined, { numberingSystem: 'latn' }).includes(',');

/** One for each count of decimals: to make one takes ten times as long as to write a number with it. */
const formatOf = madeOnce((decimals: number) => new Intl.NumberFormat('en-US', { minimumFractionDigits: decimals, maximumFractionDigits: decimals }));

/** A number with a fixed count of decimals and grouped thousands: `12,500`, `3.4`; on devices with a decimal comma `12 500`, `3,4`. */
export function formatNumber(value: number, decimals = 0): string {
  if (!Number.isFinite(value)) return NOT_KNOWN;
  const text = formatOf(decimals).format(value);
  const written = /^-[0.]+$/.test(text) ? text.slice(1) : text.replace('-', '\u2212');
  return DECIMAL_COMMA ? written.replaceAll(',', '\u202f').replace('.', ',') : written;
}

/** Minutes and seconds, with hours when there are any: `7:05`, `1:02:10`; the seconds are rounded. */
export function formatDuration(seconds: number): string {
  if (!Number.isFinite(seconds)) return NOT_KNOWN;
  const whole = Math.round(Math.abs(seconds));
  const pad = (value: number): string => String(value).padStart(2, '0');
  const hours = Math.floor(whole / 3600);
  const minutes = Math.floor((whole % 3600) / 60);
  const text = hours > 0 ? `${hours}:${pad(minutes)}:${pad(whole % 60)}` : `${minutes}:${pad(whole % 60)}`;
  return seconds < 0 && whole > 0 ? `\u2212${text}` : text;
}

/** A short time as it is said: `25 s`, from 100 s on minutes and seconds, `1:40 min`. */
export function formatShortTime(seconds: number): string {
  return Math.abs(seconds) < 99.5 ? `${formatNumber(seconds)} s` : `${formatDuration(seconds)} min`;
}

/** A bearing in three digits, north being 000: `005`, `274`. */
export function formatBearing(degrees: number): string {
  if (!Number.isFinite(degrees)) return NOT_KNOWN;
  const whole = ((Math.round(degrees) % 360) + 360) % 360;
  return String(whole).padStart(3, '0');
}

/** A latitude in degrees and decimal minutes: `47\u00b0 31.25\u2032 N`, its spaces unbreakable. */
export function formatLatitude(degrees: number): string {
  return degreesAndMinutes(degrees, 2, 'N', 'S');
}

/** A longitude in degrees and decimal minutes: `011\u00b0 02.40\u2032 E`. */
export function formatLongitude(degrees: number): string {
  return degreesAndMinutes(degrees, 3, 'E', 'W');
}

function degreesAndMinutes(degrees: number, digits: number, positive: string, negative: string): string {
  if (!Number.isFinite(degrees)) return NOT_KNOWN;
  // Rounded once as hundredths of a minute, so that 59.999 minutes become the next degree.
  const hundredths = Math.round(Math.abs(degrees) * 6000);
  const whole = Math.floor(hundredths / 6000);
  const minutes = (hundredths % 6000) / 100;
  return `${String(whole).padStart(digits, '0')}\u00b0\u00a0${minutes.toFixed(2).padStart(5, '0')}\u2032\u00a0${degrees < 0 ? negative : positive}`;
}
