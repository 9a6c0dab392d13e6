import type { ShipDebrief } from '../../core/debrief/ship-debrief.ts';
import type { ReadingWindow } from '../../core/sky/reading-window.ts';
import { shapeWords } from './score-words.ts';
import type { UnitText } from '../../core/text/unit-text.ts';

const NUMBERS = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'] as const;
/** What a reader still makes out. */
const WHOLE: readonly string[] = ['clean', 'good', 'shaky'];

/**
 * The flight in one line: `SAIL reads, four letters whole, 31 ft off at most`. By computation: from the smoke as it was
 * flown, and how long that lasts.
 *
 * @param reading of the smoke laid; null where it is not known
 */
export function verdictWords(text: string, debriefs: readonly ShipDebrief[], reading: ReadingWindow | null, { height }: UnitText): string {
  const letters = debriefs.flatMap(({ letterScores }) => letterScores).filter(({ character }) => character !== ' ');
  if (letters.length === 0) return 'No letter was planned.';
  const whole = letters.filter((letter) => WHOLE.includes(shapeWords(letter))).length;
  const worst = debriefs.flatMap(({ strokeScores }) => strokeScores.flatMap(({ crossTrackWorstMetres }) => crossTrackWorstMetres ?? [])).map(Math.abs);
  if (worst.length === 0) return `${text} was not written.`;
  const reads = whole === letters.length && (reading === null || reading.until.likelySeconds > reading.fromSeconds);
  const count = `${numberWord(whole)}${whole === letters.length ? '' : ` of ${numberWord(letters.length)}`} ${letters.length === 1 ? 'letter' : 'letters'} whole`;
  return `${text} ${reads ? 'reads' : 'does not read as a whole'}, ${count}, ${height.text(Math.max(...worst))} off at most.`;
}

function numberWord(count: number): string {
  return NUMBERS[count] ?? String(count);
}
