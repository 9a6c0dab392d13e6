import type { LetterRating } from './lessons/spreading.ts';

/** A letter as a photograph showed it when the word was laid over it. */
export interface PhotographedLetter {
  readonly letterIndex: number;
  /** Of its strokes, how much was found in smoke, 0 to 1. */
  readonly foundShare: number;
  /** Mean distance of that smoke from where the track says it lies, over letter heights; null where none was found. */
  readonly offHeights: number | null;
}

/** How a photograph stands to the track: the same, less smoke than was laid, or smoke in another place. */
export type AgainstTrack = 'as flown' | 'less smoke' | 'elsewhere';

/** A letter under this much of its smoke is broken to a reader: the share at which the scores call one broken. */
const BROKEN_SHARE = 0.6;
/** Under this much nobody makes it out; common practice, no source. */
const GONE_SHARE = 0.3;
/** Beyond this a letter's shape is bent, as the scores have it. */
const BENT_HEIGHTS = 0.05;

/** What a photograph counts for among the ratings from the ground: it was seen, at its moment. */
export function ratingFromPhotograph({ letterIndex, foundShare }: PhotographedLetter, atSeconds: number): LetterRating {
  return { letterIndex, atSeconds, reads: foundShare >= BROKEN_SHARE ? 'well' : foundShare >= GONE_SHARE ? 'hardly' : 'no' };
}

/** @param coverage how much of the letter was flown in smoke, by the track */
export function againstTrack({ foundShare, offHeights }: PhotographedLetter, coverage: number): AgainstTrack {
  if (foundShare < BROKEN_SHARE && coverage >= BROKEN_SHARE) return 'less smoke';
  return offHeights !== null && offHeights > BENT_HEIGHTS ? 'elsewhere' : 'as flown';
}

/** The letters, as they were flown, that a photograph shows otherwise. */
export function lettersSeenOtherwise(
  flown: readonly { readonly letterIndex: number; readonly character: string; readonly coverage: number }[],
  pictured: readonly PhotographedLetter[],
): string[] {
  return flown.flatMap(({ letterIndex, character, coverage }) => {
    const seen = pictured.find((letter) => letter.letterIndex === letterIndex);
    return seen === undefined || againstTrack(seen, coverage) === 'as flown' ? [] : [character];
  });
}
