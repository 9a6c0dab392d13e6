import { wordsBeginSeconds } from './announcement-seconds.ts';
import { CUE_TONES, type Tone, type ToneName } from './cue-tones.ts';
import { SPOKEN_WORDS, type SpokenWord } from './spoken-words.ts';

/** Whether a signal would be heard: not before a touch, and only while the sound's own clock advances. */
export type SoundState = 'untouched' | 'on' | 'off';

/** The one voice of the cockpit. Nothing here throws or waits: a dead sound is told by its state. */
export interface Sound {
  state(): SoundState;
  /** Lets the sound begin; browsers allow it only inside a touch or a key press. */
  unlock(): void;
  /** Plays a signal and says the words. No clip is cut: of what was being said, words that have not begun are left out. */
  announce(tone: ToneName | null, words: readonly SpokenWord[]): void;
  end(): void;
}

/** The parts of the platform that sound needs; the browser's objects fit. */
export interface SoundPlatform {
  readonly createContext: () => AudioContext;
  /** The file of a spoken word; rejects when it cannot be had. */
  readonly fetchWord: (word: SpokenWord) => Promise<ArrayBuffer>;
}

const WATCH_MILLISECONDS = 1_000;
const FADE_SECONDS = 0.008;

/** The browser's own platform. */
export function soundPlatform(): SoundPlatform {
  return {
    createContext: () => new AudioContext({ latencyHint: 'interactive' }),
    async fetchWord(word) {
      const response = await fetch(`/sounds/${word}.mp3`);
      if (!response.ok) throw new Error(`sounds/${word}.mp3: ${response.status}`);
      return response.arrayBuffer();
    },
  };
}

/** Sound that watches over itself: a context may report running with a frozen clock, so its clock is looked at each second. */
export function createSound(platform: SoundPlatform, onState: (state: SoundState) => void): Sound {
  let context: AudioContext | null = null;
  let state: SoundState = 'untouched';
  let heardAtSeconds = -1;
  const clips = new Map<SpokenWord, AudioBuffer>();
  let playing: { readonly source: AudioScheduledSourceNode; readonly startSeconds: number; readonly endSeconds: number }[] = [];

  const tell = (next: SoundState): void => {
    if (next === state) return;
    state = next;
    onState(next);
  };
  const load = async (into: AudioContext): Promise<void> => {
    await Promise.all(
      SPOKEN_WORDS.map(async (word) => {
        try {
          clips.set(word, await into.decodeAudioData(await platform.fetchWord(word)));
        } catch {
          // A word that is not to be had is left out; the signal before it stands for it.
        }
      }),
    );
  };
  const watch = (): void => {
    if (context === null) return;
    const advanced = context.state === 'running' && context.currentTime > heardAtSeconds;
    heardAtSeconds = context.currentTime;
    tell(advanced ? 'on' : 'off');
    // An interruption (a call, another app) ends without a word; asking again is harmless.
    if (!advanced) context.resume().catch(() => {});
  };
  const timer = setInterval(watch, WATCH_MILLISECONDS);

  const playTone = (into: AudioContext, { startsSeconds, lengthSeconds, fromHertz, toHertz, wave, loudness }: Tone, beginSeconds: number): void => {
    const fromSeconds = beginSeconds + startsSeconds;
    const toSeconds = fromSeconds + lengthSeconds;
    const oscillator = into.createOscillator();
    const volume = into.createGain();
    oscillator.type = wave;
    oscillator.frequency.setValueAtTime(fromHertz, fromSeconds);
    oscillator.frequency.linearRampToValueAtTime(toHertz, toSeconds);
    volume.gain.setValueAtTime(0, fromSeconds);
    volume.gain.linearRampToValueAtTime(loudness, fromSeconds + FADE_SECONDS);
    volume.gain.setValueAtTime(loudness, toSeconds - FADE_SECONDS);
    volume.gain.linearRampToValueAtTime(0, toSeconds);
    oscillator.connect(volume).connect(into.destination);
    oscillator.start(fromSeconds);
    oscillator.stop(toSeconds);
  };
  /** Leaves out what has not begun; returns when the clip that is heard now ends. */
  const clear = (into: AudioContext): number => {
    const now = into.currentTime;
    for (const { source, startSeconds } of playing) if (startSeconds > now) source.stop();
    const heard = playing.filter(({ startSeconds, endSeconds }) => startSeconds <= now && endSeconds > now);
    playing = [...heard];
    return Math.max(now, ...heard.map(({ endSeconds }) => endSeconds));
  };
  const say = (into: AudioContext, words: readonly SpokenWord[], fromSeconds: number): void => {
    let startSeconds = fromSeconds;
    for (const word of words) {
      const clip = clips.get(word);
      if (clip === undefined) continue;
      const source = into.createBufferSource();
      source.buffer = clip;
      source.connect(into.destination);
      source.start(startSeconds);
      playing.push({ source, startSeconds, endSeconds: startSeconds + clip.duration });
      startSeconds += clip.duration;
    }
  };

  return {
    state: () => state,
    unlock() {
      try {
        if (context === null) {
          context = platform.createContext();
          context.onstatechange = watch;
          void load(context);
        }
        context.resume().then(watch, () => tell('off'));
      } catch {
        tell('off');
      }
    },
    announce(tone, words) {
      if (context === null || state !== 'on') return;
      try {
        const fromSeconds = words.length > 0 ? clear(context) : context.currentTime;
        if (tone !== null) for (const part of CUE_TONES[tone]) playTone(context, part, fromSeconds);
        say(context, words, fromSeconds + wordsBeginSeconds(tone));
      } catch {
        tell('off');
      }
    },
    end() {
      clearInterval(timer);
      context?.close().catch(() => {});
      context = null;
    },
  };
}
