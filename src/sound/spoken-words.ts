/** Every word there is a clip of, `sounds/WORD.mp3`; public/sounds/origin.txt says where they come from. */
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
  'height',
  'established',
  'wait',
  'out',
  'close',
] as const;

export type SpokenWord = (typeof SPOKEN_WORDS)[number];
