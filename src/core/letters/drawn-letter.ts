import type { LetterPath } from './letter-path.ts';

/** A stroke as it is drawn; a closed one ends where and as it began and may be started anywhere. */
export interface DrawnStroke {
  readonly path: LetterPath;
  readonly closed: boolean;
}

/** One way to take a letter apart into strokes. */
export interface LetterAlternative {
  readonly style: string;
  readonly strokes: readonly DrawnStroke[];
}

/** A letter placed in the text, with every way it may be written; what typesetting gives and planning takes. */
export interface DrawnLetter {
  readonly letterIndex: number;
  readonly character: string;
  /** 0 is the upper line; taken as 0 when missing. */
  readonly line?: number;
  readonly alternatives: readonly LetterAlternative[];
}

/**
 * A drawing's strokes as letters of one stroke each, so that they may be written in any order; their letter index
 * counts the strokes. Plan them in free letter order.
 */
export function lettersOfStrokes(strokes: readonly DrawnStroke[]): DrawnLetter[] {
  return strokes.map((stroke, letterIndex) => ({ letterIndex, character: '', alternatives: [{ style: 'drawn', strokes: [stroke] }] }));
}
