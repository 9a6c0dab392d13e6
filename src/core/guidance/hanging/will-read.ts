import type { WordStanding } from './word-standing.ts';

/** How finely the reading of a word is looked ahead. */
export const STEP_SECONDS = 15;

/** Whether the word still reads for somebody in the crowd once it is written. */
export function willRead({ readsUntilSeconds, levelAtSeconds }: WordStanding): boolean {
  return readsUntilSeconds !== null && readsUntilSeconds >= levelAtSeconds - STEP_SECONDS;
}
