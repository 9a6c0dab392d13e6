import type { ShipDebrief } from '../../core/debrief/ship-debrief.ts';
import type { ReadingWindow } from '../../core/sky/reading-window.ts';
import type { UnitText } from '../../core/text/unit-text.ts';
import { lettersWords, type LettersWritten } from './letters-written.ts';

/**
 * The flight in one line: `SAIL reads, four letters whole, 31 ft off at most`. By computation: from the smoke as it was
 * flown, and how long that lasts. Nothing is said of a word whose other ships are not here.
 *
 * @param reading of the smoke laid; null where it is not known
 */
export function verdictWords(
  text: string,
  { planned, here, whole }: LettersWritten,
  debriefs: readonly ShipDebrief[],
  reading: ReadingWindow | null,
  { height }: UnitText,
): string {
  if (here === 0) return 'No letter was planned.';
  const worst = debriefs.flatMap(({ strokeScores }) => strokeScores.flatMap(({ crossTrackWorstMetres }) => crossTrackWorstMetres ?? [])).map(Math.abs);
  const off = `${height.text(Math.max(...worst))} off at most.`;
  if (here < planned)
    return `Of ${text} only ${lettersWords(here, planned)} ${here === 1 ? 'is' : 'are'} here, ${worst.length === 0 ? 'not written.' : `${lettersWords(whole.size, here)} whole, ${off}`}`;
  if (worst.length === 0) return `${text} was not written.`;
  const reads = whole.size === planned && (reading === null || reading.until.likelySeconds > reading.fromSeconds);
  return `${text} ${reads ? 'reads' : 'does not read as a whole'}, ${lettersWords(whole.size, planned)} whole, ${off}`;
}
