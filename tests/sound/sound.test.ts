import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { CUE_TONES, type ToneName, toneSeconds } from '../../src/sound/cue-tones.ts';
import { createSound, type SoundState } from '../../src/sound/sound.ts';
import type { SpokenWord } from '../../src/sound/spoken-words.ts';

/** As much of Web Audio as a signal needs; its clock follows the test's unless it is frozen. */
class FakeContext {
  state: AudioContextState = 'suspended';
  frozenAtSeconds: number | null = null;
  startedTones: number[] = [];
  said: { readonly word: string; readonly atSeconds: number; stopped: boolean }[] = [];
  resumed = 0;
  destination = {};
  onstatechange: (() => void) | null = null;
  readonly #startedAtMilliseconds = performance.now();

  get currentTime(): number {
    return this.frozenAtSeconds ?? (performance.now() - this.#startedAtMilliseconds) / 1000;
  }

  async resume(): Promise<void> {
    this.resumed += 1;
    this.state = 'running';
  }

  async close(): Promise<void> {
    this.state = 'closed';
  }

  async decodeAudioData(data: unknown): Promise<unknown> {
    return { word: data, duration: 0.5 };
  }

  createOscillator() {
    return { type: '', frequency: this.#parameter(), connect: (next: unknown) => next, stop: () => {}, start: (at: number) => this.startedTones.push(at) };
  }

  createGain() {
    return { gain: this.#parameter(), connect: (next: unknown) => next };
  }

  createStereoPanner() {
    return { pan: { value: 0 }, connect: (next: unknown) => next };
  }

  createBufferSource() {
    const entry = { word: '', atSeconds: NaN, stopped: false };
    return {
      set buffer(clip: { readonly word: string }) {
        entry.word = clip.word;
      },
      connect: (next: unknown) => next,
      start: (atSeconds: number) => {
        entry.atSeconds = atSeconds;
        this.said.push(entry);
      },
      stop: () => {
        entry.stopped = true;
      },
    };
  }

  #parameter() {
    return { setValueAtTime: () => {}, linearRampToValueAtTime: () => {} };
  }
}

function made(missing: readonly SpokenWord[] = []) {
  const contexts: FakeContext[] = [];
  const states: SoundState[] = [];
  const sound = createSound(
    {
      createContext() {
        const context = new FakeContext();
        contexts.push(context);
        return context as unknown as AudioContext;
      },
      async fetchWord(word) {
        if (missing.includes(word)) throw new Error('404');
        return word as unknown as ArrayBuffer;
      },
    },
    (state) => states.push(state),
  );
  return { sound, contexts, states };
}

async function awake(missing: readonly SpokenWord[] = []) {
  const { sound, contexts, states } = made(missing);
  sound.unlock();
  await vi.advanceTimersByTimeAsync(2_000);
  const context = contexts[0];
  if (context === undefined) throw new Error('no context was made');
  return { sound, context, states };
}

describe('createSound', () => {
  beforeEach(() => {
    vi.useFakeTimers();
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it('makes nothing before a touch', async () => {
    const { sound, contexts } = made();
    sound.announce('smoke-on', ['smoke-on']);
    await vi.advanceTimersByTimeAsync(5_000);
    expect(contexts).toHaveLength(0);
    expect(sound.state()).toBe('untouched');
  });

  it('says SOUND OFF within two seconds when the clock freezes though the context reports running, and on again', async () => {
    const { sound, context, states } = await awake();
    expect(sound.state()).toBe('on');
    context.frozenAtSeconds = context.currentTime;
    await vi.advanceTimersByTimeAsync(2_000);
    expect(context.state).toBe('running');
    expect(sound.state()).toBe('off');
    context.frozenAtSeconds = null;
    await vi.advanceTimersByTimeAsync(1_000);
    expect(states).toEqual(['on', 'off', 'on']);
  });

  it('asks an interrupted context to go on', async () => {
    const { sound, context } = await awake();
    const before = context.resumed;
    context.state = 'suspended';
    context.onstatechange?.();
    expect(sound.state()).toBe('off');
    await vi.advanceTimersByTimeAsync(2_000);
    expect(context.resumed).toBeGreaterThan(before);
    expect(sound.state()).toBe('on');
  });

  it('says the words one after the other, after the signal', async () => {
    const { sound, context } = await awake();
    const nowSeconds = context.currentTime;
    sound.announce('go-around', ['pass-again', 'two', 'one']);
    const firstSeconds = nowSeconds + toneSeconds('go-around') + 0.06;
    expect(context.said.map(({ word, atSeconds }) => [word, Number((atSeconds - firstSeconds).toFixed(6))])).toEqual([
      ['pass-again', 0],
      ['two', 0.5],
      ['one', 1],
    ]);
  });

  it('says smoke at once, over its signal', async () => {
    const { sound, context } = await awake();
    const nowSeconds = context.currentTime;
    sound.announce('smoke-on', ['smoke-on']);
    expect(context.said[0]?.atSeconds).toBeCloseTo(nowSeconds, 6);
    expect(context.startedTones[0]).toBeCloseTo(nowSeconds, 6);
  });

  it('cuts no clip: the next one begins when the one that is heard has ended, and the words after that are left out', async () => {
    const { sound, context } = await awake();
    const nowSeconds = context.currentTime;
    sound.announce(null, ['left', 'two', 'one']);
    await vi.advanceTimersByTimeAsync(700);
    sound.announce('smoke-on', ['smoke-on']);
    expect(context.said.map(({ word, stopped }) => [word, stopped])).toEqual([
      ['left', false],
      ['two', false],
      ['one', true],
      ['smoke-on', false],
    ]);
    expect(context.said[3]!.atSeconds - nowSeconds).toBeCloseTo(1, 6);
  });

  it('leaves out a word whose clip is missing', async () => {
    const { sound, context } = await awake(['two']);
    sound.announce(null, ['two', 'one']);
    expect(context.said.map(({ word }) => word)).toEqual(['one']);
  });

  it('ends with its context', async () => {
    const { sound, context } = await awake();
    sound.end();
    expect(context.state).toBe('closed');
    sound.announce('smoke-on', []);
    expect(context.startedTones).toEqual([]);
  });
});

describe('CUE_TONES', () => {
  /** What an ear remembers: how many tones, which way each glides, and the steps between them. */
  const melody = (name: ToneName): string =>
    CUE_TONES[name]
      .map(({ fromHertz, toHertz, lengthSeconds }, index, all) => {
        const before = all[index - 1];
        const step = before === undefined ? '' : Math.sign(fromHertz - before.toHertz);
        return `${step}${Math.sign(toHertz - fromHertz)}${lengthSeconds > 0.3 ? 'long' : lengthSeconds > 0.1 ? 'short' : 'pip'}`;
      })
      .join(' ');

  it('gives no two cues the same melody', () => {
    const melodies = (Object.keys(CUE_TONES) as ToneName[]).map(melody);
    expect(new Set(melodies).size).toBe(melodies.length);
  });

  it('keeps every tone between 400 and 1,800 Hz and every signal under a second', () => {
    for (const name of Object.keys(CUE_TONES) as ToneName[]) {
      expect(toneSeconds(name)).toBeLessThan(1);
      for (const { fromHertz, toHertz } of CUE_TONES[name]) {
        expect(Math.min(fromHertz, toHertz)).toBeGreaterThanOrEqual(400);
        expect(Math.max(fromHertz, toHertz)).toBeLessThanOrEqual(1800);
      }
    }
  });
});
