import { type ToneName, toneSeconds, UNDER_WORDS } from './cue-tones.ts';
import { spokenSeconds, type SpokenWord } from './spoken-words.ts';

/** Between a signal and the words after it. */
export const PAUSE_BEFORE_WORDS_SECONDS = 0.06;

/** When the words begin, from the announcement's own beginning: under the smoke's signals at once, after all others. */
export function wordsBeginSeconds(tone: ToneName | null): number {
  return tone === null || UNDER_WORDS.has(tone) ? 0 : toneSeconds(tone) + PAUSE_BEFORE_WORDS_SECONDS;
}

/** How long an announcement is heard, its signal and its words. "Smoke on", over its rise: 0.57 s. */
export function announcementSeconds({ tone, words }: { readonly tone: ToneName | null; readonly words: readonly SpokenWord[] }): number {
  return Math.max(tone === null ? 0 : toneSeconds(tone), wordsBeginSeconds(tone) + spokenSeconds(words));
}
