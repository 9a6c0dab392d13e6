/**
 * Every word there is a clip of, `sounds/WORD.mp3`, and how long the clip lasts, in seconds, its frames counted;
 * public/sounds/origin.txt says where they come from.
 */
export const SPOKEN_SECONDS = {
  circle: 0.417,
  close: 0.391,
  eight: 0.287,
  established: 0.6,
  finished: 0.417,
  five: 0.365,
  four: 0.313,
  height: 0.339,
  hold: 0.417,
  late: 0.313,
  left: 0.365,
  medium: 0.417,
  next: 0.417,
  nine: 0.365,
  'no-cue': 0.47,
  one: 0.339,
  out: 0.287,
  'pass-again': 0.627,
  right: 0.339,
  'roll-out': 0.47,
  seven: 0.417,
  shallow: 0.391,
  six: 0.391,
  'smoke-off': 0.574,
  'smoke-on': 0.574,
  steep: 0.391,
  straight: 0.417,
  three: 0.287,
  two: 0.235,
  wait: 0.339,
  zero: 0.391,
} as const;

export type SpokenWord = keyof typeof SPOKEN_SECONDS;

/** The words of {@link SPOKEN_SECONDS}. */
export const SPOKEN_WORDS = Object.keys(SPOKEN_SECONDS) as readonly SpokenWord[];

/** How long words take one after the other, seconds. "Left steep zero nine zero": 1.9 s. */
export function spokenSeconds(words: readonly SpokenWord[]): number {
  return words.reduce((sum, word) => sum + SPOKEN_SECONDS[word], 0);
}
