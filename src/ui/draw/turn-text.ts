import { formatNumber } from '../../core/text/number-formats.ts';

/** More than this from level and a word is read worse: measured with a reader that does not know it. */
export const LEVEL_DEGREES = 6;

/**
 * How a word's line stands in the eye, in a sentence.
 *
 * @param turnDegrees positive when it rises to the right; past 90 the eye stands behind the text
 */
export function turnText(turnDegrees: number): string {
  const size = Math.abs(turnDegrees);
  if (size > 90) return 'From here the word stands on its head and reads backwards: this eye looks from behind it.';
  if (size < 1) return 'Its line lies level from here.';
  const turned = `Its line ${turnDegrees > 0 ? 'rises' : 'falls'} to the right by ${formatNumber(size)}\u00b0 from here`;
  return size > LEVEL_DEGREES ? `${turned}: beyond ${LEVEL_DEGREES}\u00b0 a word is read worse.` : `${turned}.`;
}
