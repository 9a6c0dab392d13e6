/** A sentence whose checksum holds. */
export interface NmeaSentence {
  /** Two letters of who speaks: GP, GN, GL, GA. */
  readonly talker: string;
  /** Three letters of what is said: GGA, RMC, VTG, GSA. */
  readonly kind: string;
  /** The fields after the address. */
  readonly fields: readonly string[];
}

/** NMEA 0183 allows 82 characters; some receivers send a few more. */
const LONGEST = 120;

/**
 * One line of NMEA 0183 (IEC 61162-1): `$`, address, fields separated by commas, `*` and the exclusive or of all between in
 * two hexadecimal digits, without which nothing is believed. Null for anything else.
 * `$GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,*47` is a GGA of GP.
 */
export function nmeaSentence(line: string): NmeaSentence | null {
  const trimmed = line.trim();
  if (trimmed.length > LONGEST) return null;
  const [, body, sum] = /^\$([ -)+-~]+)\*([0-9A-Fa-f]{2})$/.exec(trimmed) ?? [];
  if (body === undefined || sum === undefined) return null;
  let checksum = 0;
  for (let index = 0; index < body.length; index += 1) checksum ^= body.charCodeAt(index);
  if (checksum !== Number.parseInt(sum, 16)) return null;
  const [address = '', ...fields] = body.split(',');
  return /^[A-Z]{5}$/.test(address) ? { talker: address.slice(0, 2), kind: address.slice(2), fields } : null;
}

/** `4807.038` and `N`: degrees and minutes; null for none, or out of range. */
export function nmeaDegrees(written: string, hemisphere: string): number | null {
  const [, degrees, minutes] = /^(\d{2,3})(\d\d(?:\.\d+)?)$/.exec(written) ?? [];
  if (degrees === undefined || minutes === undefined || Number(minutes) >= 60) return null;
  const value = Number(degrees) + Number(minutes) / 60;
  const most = hemisphere === 'N' || hemisphere === 'S' ? 90 : hemisphere === 'E' || hemisphere === 'W' ? 180 : -1;
  return value <= most ? (hemisphere === 'S' || hemisphere === 'W' ? -value : value) + 0 : null;
}

/** `123519.50` as milliseconds of the day; null for none. */
export function nmeaDayMilliseconds(written: string): number | null {
  const [, hour, minute, second] = /^(\d\d)(\d\d)(\d\d(?:\.\d{1,3})?)$/.exec(written) ?? [];
  if (hour === undefined || minute === undefined || second === undefined || Number(hour) > 23 || Number(minute) > 59 || Number(second) >= 61) return null;
  return Math.round((Number(hour) * 3600 + Number(minute) * 60 + Number(second)) * 1000);
}
