// What XML 1.0 (fifth edition, section 2.2) allows as a character; lone halves of a surrogate pair are not among it.
const NOT_XML = /[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu;

/**
 * Text as it may stand inside an XML element or a quoted attribute: the five marks escaped, forbidden characters
 * dropped. `xmlText('A & <b>')` is `A &amp; &lt;b&gt;`.
 */
export function xmlText(text: string): string {
  return text.replace(NOT_XML, '').replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;').replace(/'/g, '&apos;');
}

/**
 * A decimal number as XML Schema's `decimal` wants it, never with an exponent, without trailing zeros or a negative
 * zero. `decimalText(-0.00000001, 7)` is `0`, `decimalText(46.5, 7)` is `46.5`.
 *
 * @throws RangeError for a value that is not finite
 */
export function decimalText(value: number, decimals: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`a written number must be finite, not ${value}`);
  const fixed = value.toFixed(decimals);
  const trimmed = fixed.includes('.') ? fixed.replace(/\.?0+$/, '') : fixed;
  return trimmed === '-0' ? '0' : trimmed;
}
