import { effect, type ReadonlySignal, signal } from '@preact/signals';
import type { SoundState } from '../../sound/sound.ts';
import type { FlightVoice, Speaker } from './speaker-types.ts';

const RETRY_MILLISECONDS = 2_000;

/**
 * A voice whose code is fetched after the first cue stands, so that a flight gone on with after a kill shows its cue
 * sooner. Until it is there nothing is said; then it begins from the cues that it would have begun from. A fetch that
 * fails is tried again.
 */
export function laterVoice(load: () => Promise<FlightVoice>): FlightVoice {
  const state = signal<SoundState>('untouched');
  const voice = signal<FlightVoice | null>(null);
  let ended = false;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const endFollowing = effect(() => {
    if (voice.value !== null) state.value = voice.value.state.value;
  });
  const fetchIt = (): void => {
    load().then(
      (loaded) => {
        if (ended) loaded.end();
        else voice.value = loaded;
      },
      () => {
        if (!ended) timer = setTimeout(fetchIt, RETRY_MILLISECONDS);
      },
    );
  };
  fetchIt();
  return {
    state: state as ReadonlySignal<SoundState>,
    unlock: () => voice.peek()?.unlock(),
    speakerFrom(before) {
      let speaker: Speaker | null = null;
      return {
        follow: (cues, atSeconds) => (speaker ??= voice.peek()?.speakerFrom(before) ?? null)?.follow(cues, atSeconds) ?? null,
        sayClose: () => speaker?.sayClose(),
      };
    },
    tryOut: () => voice.peek()?.tryOut(),
    end() {
      ended = true;
      clearTimeout(timer);
      endFollowing();
      voice.peek()?.end();
    },
  };
}
