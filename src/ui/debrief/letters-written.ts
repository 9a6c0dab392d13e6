import type { ShipDebrief } from '../../core/debrief/ship-debrief.ts';
import type { Plan } from '../../core/plan/plan.ts';
import { shapeWords } from './score-words.ts';

/** What a reader still makes out. */
const WHOLE: readonly string[] = ['clean', 'good', 'shaky'];

/** How much of a text was written by the ships whose tracks are at hand. */
export interface LettersWritten {
  /** Letters of the whole text. */
  readonly planned: number;
  /** Letters of the ships that are here: fewer where another ship's track is missing. */
  readonly here: number;
  /** By their index in the text. */
  readonly whole: ReadonlySet<number>;
}

/** Counts the letters; without a plan the ships that are here had to write all of the text. */
export function lettersWritten(debriefs: readonly ShipDebrief[], plan: Plan | null): LettersWritten {
  const letters = debriefs.flatMap(({ letterScores }) => letterScores).filter(({ character }) => character !== ' ');
  const here = new Set(letters.map(({ letterIndex }) => letterIndex)).size;
  const planned = new Set(plan?.ships.flatMap(({ legs }) => legs.flatMap((leg) => (leg.kind === 'smoke' ? [leg.letterIndex] : []))) ?? []).size;
  return {
    planned: Math.max(here, planned),
    here,
    whole: new Set(letters.filter((letter) => WHOLE.includes(shapeWords(letter))).map(({ letterIndex }) => letterIndex)),
  };
}

/** `four letters`, `two of four letters`. */
export function lettersWords(count: number, all: number): string {
  return `${numberWord(count)}${count === all ? '' : ` of ${numberWord(all)}`} ${all === 1 ? 'letter' : 'letters'}`;
}

const NUMBERS = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'] as const;

function numberWord(count: number): string {
  return NUMBERS[count] ?? String(count);
}
