// Control and format characters (Unicode categories Cc, Cf, Cs), line and paragraph separators; bidi marks are Cf.
const HIDDEN = /[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/gu;

/**
 * Text of several lines from outside as it may be shown and stored: NFC, lines ended by a line feed, tabs as
 * spaces, hidden and turning characters stripped, cut to a number of UTF-16 units. `cleanText('a\u202E\r\nb', 9)`
 * is `a\nb`.
 */
export function cleanText(text: string, lengthLimit: number): string {
  return text
    .normalize('NFC')
    .split(/\r\n|\r|\n/)
    .map((line) => line.replace(/\t/g, ' ').replace(HIDDEN, '').trimEnd())
    .join('\n')
    .trim()
    .slice(0, lengthLimit)
    .replace(/[\uD800-\uDBFF]$/, '')
    .trimEnd();
}
