// Control and format characters (bidi marks, joiners, byte order marks), halves of surrogate pairs, line separators.
const HIDDEN = /[\p{Cc}\p{Cf}\p{Cs}\u2028\u2029]/gu;

/** How many characters a name from outside may have. */
export const NAME_LENGTH = 60;

/**
 * A name from outside as it may be shown and stored: normalised (NFC), hidden and turning characters stripped, spaces
 * joined, at most {@link NAME_LENGTH} characters; empty when nothing is left. `cleanName(' Lead\u202E \t 1 ')` is `Lead 1`.
 */
export function cleanName(text: string): string {
  const seen = text
    .slice(0, 4000)
    .replace(/[\t\n\r]/g, ' ')
    .replace(HIDDEN, '')
    .normalize('NFC');
  const joined = seen.replace(/\s+/g, ' ').trim();
  return Array.from(joined).slice(0, NAME_LENGTH).join('').trim();
}
