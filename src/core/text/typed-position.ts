/** A position that a person typed or pasted, WGS 84, north and east positive; or why there is none. */
export type TypedPosition =
  | { readonly ok: true; readonly latitudeDegrees: number; readonly longitudeDegrees: number }
  | { readonly ok: false; readonly reason: string };

const EXAMPLE = 'Write it like 43.8721, -74.4318 or 43\u00b0 52.3\u2032 N 074\u00b0 25.9\u2032 W';

/**
 * Reads a pair in any usual form: decimal degrees with a point or a comma, degrees and minutes, degrees, minutes and
 * seconds, with or without spaces between them (ICAO Annex 15: `0807S03453W`); signs, or hemisphere letters before or
 * after. Latitude comes first unless the letters say otherwise.
 */
export function typedPosition(text: string): TypedPosition {
  const plain = text
    .trim()
    .toUpperCase()
    .replace(/[\u2212\u2013]/g, '-')
    .replace(/[\u00b0\u00ba'\u2019\u2032"\u201d\u2033:_]/g, ' ');
  const halves = split(plain);
  if (halves === null) return { ok: false, reason: `Two coordinates are needed. ${EXAMPLE}.` };
  const read = halves.map(coordinate);
  const [one, other] = read;
  if (one === undefined || other === undefined || one === null || other === null) return { ok: false, reason: `That is not a position. ${EXAMPLE}.` };
  const turned = one.axis === 'longitude' || other.axis === 'latitude';
  const [latitude, longitude] = turned ? [other, one] : [one, other];
  if (latitude.axis === 'longitude' || longitude.axis === 'latitude') return { ok: false, reason: 'One of them must be a latitude, the other a longitude.' };
  if (Math.abs(latitude.degrees) > 90) return { ok: false, reason: `A latitude lies between 90 south and 90 north; it is ${latitude.degrees}.` };
  if (Math.abs(longitude.degrees) > 180) return { ok: false, reason: `A longitude lies between 180 west and 180 east; it is ${longitude.degrees}.` };
  return { ok: true, latitudeDegrees: latitude.degrees, longitudeDegrees: longitude.degrees };
}

interface Coordinate {
  readonly degrees: number;
  readonly axis: 'latitude' | 'longitude' | null;
}

/** The two halves: separated by hemisphere letters, by a comma or semicolon and a space, or into equal counts of numbers. */
function split(text: string): readonly [string, string] | null {
  const letters = [...text.matchAll(/[NSEWO]/g)].map(({ index }) => index);
  if (letters.length === 2) {
    const [first = 0, second = 0] = letters;
    // A letter before its numbers stands at the very beginning.
    const at = /^[NSEWO]/.test(text) ? second : first + 1;
    return halved(text, at);
  }
  if (letters.length !== 0) return null;
  const halves = /^([^;]+?)(?:\s*;\s*|,\s+|\s+,\s*)([^;]+)$/.exec(text) ?? /^(-?[\d.]+),(-?[\d.]+)$/.exec(text);
  if (halves !== null) return [halves[1] ?? '', halves[2] ?? ''];
  const numbers = text.split(/\s+/);
  return numbers.length % 2 === 0 ? [numbers.slice(0, numbers.length / 2).join(' '), numbers.slice(numbers.length / 2).join(' ')] : null;
}

function halved(text: string, at: number): readonly [string, string] {
  const trimmed = (half: string): string => half.trim().replace(/^[,;]\s*|\s*[,;]$/g, '');
  return [trimmed(text.slice(0, at)), trimmed(text.slice(at))];
}

/** One coordinate of one to three numbers, each but the last whole; null for none. */
function coordinate(half: string): Coordinate | null {
  const letter = /[NSEWO]/.exec(half)?.[0] ?? null;
  const numbers = apart(half.replace(/[NSEWO]/, ' ').trim(), letter);
  const [, sign = '', degreesText = '', minutesText = '', secondsText = ''] =
    /^([-+]?)\s*(\d{1,3}(?:[.,]\d+)?)(?:\s+(\d{1,2}(?:[.,]\d+)?))?(?:\s+(\d{1,2}(?:[.,]\d+)?))?$/.exec(numbers) ?? [];
  if (degreesText === '' || (sign !== '' && letter !== null)) return null;
  const [degrees, minutes, seconds] = [degreesText, minutesText, secondsText].map((written) => Number(written.replace(',', '.')));
  if ((minutesText !== '' && !Number.isInteger(degrees)) || (secondsText !== '' && !Number.isInteger(minutes))) return null;
  if (minutes! >= 60 || seconds! >= 60) return null;
  const value = degrees! + minutes! / 60 + seconds! / 3600;
  const negative = sign === '-' || letter === 'S' || letter === 'W' || letter === 'O';
  return { degrees: negative ? -value : value + 0, axis: letter === null ? null : 'NS'.includes(letter) ? 'latitude' : 'longitude' };
}

/** Degrees, minutes and seconds written as one number beside a hemisphere letter, as separate ones: two figures of latitude, three of longitude. */
function apart(numbers: string, letter: string | null): string {
  if (letter === null) return numbers;
  const joined = 'NS'.includes(letter) ? /^(\d\d)(\d\d)(\d\d)?([.,]\d+)?$/ : /^(\d{3})(\d\d)(\d\d)?([.,]\d+)?$/;
  const [, degrees, minutes, seconds, decimals = ''] = joined.exec(numbers) ?? [];
  if (degrees === undefined || minutes === undefined) return numbers;
  return seconds === undefined ? `${degrees} ${minutes}${decimals}` : `${degrees} ${minutes} ${seconds}${decimals}`;
}
