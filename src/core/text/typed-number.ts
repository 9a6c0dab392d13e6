import { type Conversion, othersOf } from '../units/unit-kinds.ts';
import type { Limits } from './field-schemas.ts';
import { formatNumber } from './number-formats.ts';

/**
 * A number that a person typed, in the field's unit; or why there is none, in words. Where the text can mean two
 * numbers, both are `readings`: which was meant is asked, never guessed.
 */
export type TypedNumber = { readonly ok: true; readonly value: number } | { readonly ok: false; readonly reason: string; readonly readings: readonly number[] };

const WRITTEN = /^([-+]?)([\d.,'\u2019\s\u00a0\u2009\u202f]*\d[.,]?|[.,]\d+)\s*(.*)$/;

/**
 * Reads a number as people and devices write it: decimal point or comma; groups of three separated by comma, point, space
 * or apostrophe; a typographic minus; a unit after it (`3000 m` in a field in feet).
 *
 * One comma or point before exactly three digits may part thousands or begin decimals: `3.500` is 3,500 or 3.5. It is
 * taken where it can be but one: after a zero (`0,034`), or where the other lies outside of the limits.
 *
 * @param limits of the value in the field's unit, both ends allowed
 * @param unit the field's own, `ft`, `kt`, `lb`, `gal`; others take no unit but their own
 */
export function typedNumber(text: string, limits: Limits, unit = ''): TypedNumber {
  const trimmed = text.trim().replace(/[\u2212\u2013]/, '-');
  if (trimmed === '') return refused('No number yet');
  const [, sign = '', digits, suffix = ''] = WRITTEN.exec(trimmed) ?? [];
  const conversion = typedConversion(suffix.trim().toLowerCase(), unit);
  const readings = digits === undefined ? null : plainReadings(digits.trim());
  if (readings === null) return refused(`\u201c${trimmed.slice(0, 20)}\u201d is not a number`);
  if (conversion === null) return refused(`\u201c${suffix.slice(0, 12)}\u201d is no unit that can be typed here${unitsWords(unit)}`);
  const { factor, zero } = conversion;
  const values = readings.map((plain) => Number(`${sign}${plain}`)).map((value) => (factor === 1 ? value : Number((value * factor + zero).toPrecision(12))));
  const [least, greatest] = limits;
  const inside = values.filter((value) => value >= least && value <= greatest);
  const [only, other] = inside;
  if (only === undefined) return refused(`Must lie between ${spelled(least)} and ${spelled(greatest)}`);
  if (other === undefined || other === only) return { ok: true, value: only + 0 };
  return { ok: false, reason: `\u201c${trimmed.slice(0, 20)}\u201d can mean ${spelled(only)} or ${spelled(other)}: choose`, readings: [only, other] };
}

/** The plain decimal forms that written digits can stand for: one, two where it is ambiguous, null for no number. */
function plainReadings(written: string): readonly string[] | null {
  const digits = written.replace(/[\s\u00a0\u2009\u202f'\u2019]/g, ' ');
  const spaced = / /.test(digits);
  // Spaces and apostrophes part thousands and nothing else.
  if (spaced && !/^\d{1,3}( \d{3})+([.,]\d*)?$/.test(digits)) return null;
  const packed = digits.replace(/ /g, '');
  const marks = [...packed].filter((character) => character === ',' || character === '.');
  const [first] = marks;
  const last = marks.at(-1);
  if (first === undefined || last === undefined) return [packed];
  if (first !== last) {
    // Two kinds: the one that stands last begins the decimals, the other parts thousands.
    const grouped = new RegExp(`^\\d{1,3}(\\${first}\\d{3})+\\${last}\\d*$`);
    return grouped.test(packed) ? [packed.replaceAll(first, '').replace(last, '.')] : null;
  }
  if (marks.length > 1) return new RegExp(`^\\d{1,3}(\\${first}\\d{3})+$`).test(packed) ? [packed.replaceAll(first, '')] : null;
  const decimal = packed.replace(first, '.').replace(/\.$/, '');
  const [whole = '', fraction = ''] = packed.split(first);
  const mayGroup = !spaced && fraction.length === 3 && /^[1-9]\d{0,2}$/.test(whole);
  return mayGroup ? [packed.replace(first, ''), decimal] : [decimal];
}

function typedConversion(suffix: string, unit: string): Conversion | null {
  if (suffix === '' || suffix === unit.toLowerCase()) return { factor: 1, zero: 0 };
  return othersOf(unit)[suffix] ?? null;
}

function unitsWords(unit: string): string {
  const units = Object.keys(othersOf(unit));
  return units.length === 0 ? '' : `; ${units.join(', ')} are`;
}

const refused = (reason: string): TypedNumber => ({ ok: false, reason, readings: [] });

function spelled(value: number): string {
  return Number.isInteger(value) ? formatNumber(value) : formatNumber(value, 3).replace(/([.,]\d*?)0+$/, '$1');
}
