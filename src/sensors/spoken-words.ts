/** Every word there is a clip of, `sounds/WORD.mp3`; see public/sounds/README.md for where they come from. */
export const SPOKEN_WORDS = [
  'zero',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'left',
  'right',
  'straight',
  'smoke-on',
  'smoke-off',
  'go-around',
  'hold',
  'finished',
  'no-cue',
  'ready',
  'datum',
] as const;

export type SpokenWord = (typeof SPOKEN_WORDS)[number];
