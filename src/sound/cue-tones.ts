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
  /** -1 is the left ear, 1 the right. */
  readonly side: number;
}

export type ToneName = 'left' | 'right' | 'straight' | 'ready' | 'count' | 'smoke-on' | 'smoke-off' | 'go-around' | 'hold' | 'finished' | 'no-cue';

const tone = (startsSeconds: number, lengthSeconds: number, fromHertz: number, toHertz: number, more: Partial<Tone> = {}): Tone => ({
  startsSeconds,
  lengthSeconds,
  fromHertz,
  toHertz,
  wave: 'triangle',
  loudness: 0.5,
  side: 0,
  ...more,
});

/**
 * What each cue sounds like, told apart by melody and not by pitch alone, between 400 and 1,800 Hz where a headset
 * carries best over engine noise (common practice, no source). Smoke ON is one long rise, smoke OFF two short
 * falls; left steps down in the left ear, right steps up in the right.
 */
export const CUE_TONES: Readonly<Record<ToneName, readonly Tone[]>> = {
  left: [tone(0, 0.11, 760, 760, { side: -0.8 }), tone(0.14, 0.16, 540, 540, { side: -0.8 })],
  right: [tone(0, 0.11, 760, 760, { side: 0.8 }), tone(0.14, 0.16, 1080, 1080, { side: 0.8 })],
  straight: [tone(0, 0.22, 760, 760)],
  ready: [tone(0, 0.07, 1000, 1000), tone(0.1, 0.07, 1000, 1000), tone(0.2, 0.07, 1000, 1000)],
  count: [tone(0, 0.08, 1000, 1000)],
  'smoke-on': [tone(0, 0.55, 560, 1700, { wave: 'square', loudness: 0.4 })],
  'smoke-off': [tone(0, 0.2, 1300, 520, { wave: 'square', loudness: 0.4 }), tone(0.25, 0.2, 1300, 520, { wave: 'square', loudness: 0.4 })],
  'go-around': [tone(0, 0.16, 620, 620), tone(0.2, 0.16, 880, 880), tone(0.4, 0.16, 620, 620), tone(0.6, 0.16, 880, 880)],
  hold: [tone(0, 0.4, 480, 480, { wave: 'sine', loudness: 0.6 })],
  finished: [tone(0, 0.15, 660, 660), tone(0.18, 0.15, 830, 830), tone(0.36, 0.3, 990, 990)],
  'no-cue': [
    tone(0, 0.18, 440, 420, { wave: 'square', loudness: 0.45 }),
    tone(0.24, 0.18, 440, 420, { wave: 'square', loudness: 0.45 }),
    tone(0.48, 0.18, 440, 420, { wave: 'square', loudness: 0.45 }),
  ],
};

/** When a signal has ended, seconds from its beginning. The long rise of smoke ON lasts 0.55 s. */
export function toneSeconds(name: ToneName): number {
  return Math.max(...CUE_TONES[name].map(({ startsSeconds, lengthSeconds }) => startsSeconds + lengthSeconds));
}
