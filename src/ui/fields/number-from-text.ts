import { formatNumber } from '../../core/text/number-formats.ts';

/** A number a person typed, or what is wrong with it in words. */
export type TypedNumber = { readonly ok: true; readonly value: number } | { readonly ok: false; readonly reason: string };

const PLAIN_NUMBER = /^[-+]?(\d+(\.\d*)?|\.\d+)$/;

/**
 * Reads a typed number within a range, both ends allowed. Grouping commas and spaces are skipped and a minus may
 * be typographic; one comma followed by other than three digits is a decimal comma.
 */
export function numberFromText(text: string, minimum: number, maximum: number): TypedNumber {
  const trimmed = text.trim().replace('\u2212', '-');
  if (trimmed === '') return { ok: false, reason: 'No number yet' };
  const decimalComma = /^[-+]?\d+,(\d{1,2}|\d{4,})$/.test(trimmed);
  const plain = decimalComma ? trimmed.replace(',', '.') : trimmed.replace(/,(?=\d{3})|[\s\u00a0\u2009]/g, '');
  if (!PLAIN_NUMBER.test(plain)) return { ok: false, reason: `\u201c${trimmed.slice(0, 20)}\u201d is not a number` };
  const value = Number(plain);
  if (value < minimum || value > maximum) return { ok: false, reason: `Must lie between ${spelled(minimum)} and ${spelled(maximum)}` };
  return { ok: true, value };
}

function spelled(value: number): string {
  return formatNumber(value, Number.isInteger(value) ? 0 : 2).replace(/(\.\d)0$/, '$1');
}
