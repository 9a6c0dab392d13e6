import { effect, type ReadonlySignal, signal } from '@preact/signals';
import type { SoundState } from '../../../sound/sound.ts';
import { soon } from '../../soon.ts';
import type { FlightVoice, Speaker } from './speaker-types.ts';

/**
 * A voice whose code is fetched after the first cue stands, so that a flight gone on with after a kill shows its cue
 * sooner. Until it is there nothing is said; then it begins from the cues that it would have begun from. A fetch that
 * fails is tried again.
 */
export function laterVoice(load: () => Promise<FlightVoice>): FlightVoice {
  const state = signal<SoundState>('untouched');
  const voice = signal<FlightVoice | null>(null);
  const endFollowing = effect(() => {
    if (voice.value !== null) state.value = voice.value.state.value;
  });
  const endVoice = soon(async () => {
    voice.value = await load();
    return voice.value.end;
  });
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
      endFollowing();
      endVoice();
    },
  };
}
