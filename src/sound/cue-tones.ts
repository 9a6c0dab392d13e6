/** One tone of a signal. */
export interface Tone {
  /** From the signal's beginning. */
  readonly startsSeconds: number;
  readonly lengthSeconds: number;
  /** The pitch glides evenly from one to the other. */
  readonly fromHertz: number;
  readonly toHertz: number;
  readonly wave: 'sine' | 'triangle' | 'square';
  /** 0 to 1. */
  readonly loudness: number;
}

export type ToneName = 'smoke-on' | 'smoke-off' | 'go-around' | 'hold' | 'finished' | 'no-cue';

const tone = (startsSeconds: number, lengthSeconds: number, fromHertz: number, toHertz: number, more: Partial<Tone> = {}): Tone => ({
  startsSeconds,
  lengthSeconds,
  fromHertz,
  toHertz,
  wave: 'triangle',
  loudness: 0.5,
  ...more,
});

/**
 * What each cue sounds like, told apart by melody and not by pitch alone, between 400 and 1,800 Hz where a headset
 * carries best over engine noise (common practice, no source). Smoke ON is one long rise, smoke OFF two short
 * falls; turns and the countdown are said in words alone, since a signal before them would make them late.
 */
export const CUE_TONES: Readonly<Record<ToneName, readonly Tone[]>> = {
  'smoke-on': [tone(0, 0.55, 560, 1700, { loudness: 0.22 })],
  'smoke-off': [tone(0, 0.2, 1300, 520, { loudness: 0.22 }), tone(0.25, 0.2, 1300, 520, { loudness: 0.22 })],
  'go-around': [tone(0, 0.12, 620, 620), tone(0.15, 0.12, 880, 880), tone(0.3, 0.12, 620, 620)],
  hold: [tone(0, 0.4, 480, 480, { wave: 'sine', loudness: 0.6 })],
  finished: [tone(0, 0.15, 660, 660), tone(0.18, 0.15, 830, 830), tone(0.36, 0.3, 990, 990)],
  'no-cue': [
    tone(0, 0.18, 440, 420, { wave: 'square', loudness: 0.45 }),
    tone(0.24, 0.18, 440, 420, { wave: 'square', loudness: 0.45 }),
    tone(0.48, 0.18, 440, 420, { wave: 'square', loudness: 0.45 }),
  ],
};

/** Signals that sound softly under their word instead of before it: smoke is said at once. */
export const UNDER_WORDS: ReadonlySet<ToneName> = new Set(['smoke-on', 'smoke-off']);

/** When a signal has ended, seconds from its beginning. The long rise of smoke ON lasts 0.55 s. */
export function toneSeconds(name: ToneName): number {
  return Math.max(...CUE_TONES[name].map(({ startsSeconds, lengthSeconds }) => startsSeconds + lengthSeconds));
}
