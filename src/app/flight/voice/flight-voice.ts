import { signal } from '@preact/signals';
import { createSound, soundPlatform, type SoundState } from '../../../sound/sound.ts';
import type { FlightVoice } from './speaker-types.ts';
import { createSpeaker } from './speaker.ts';

/** The voice of a flight: what it says, and the device's sound that says it. */
export function createFlightVoice(): FlightVoice {
  const state = signal<SoundState>('untouched');
  const sound = createSound(soundPlatform(), (next) => (state.value = next));
  return {
    state,
    unlock: sound.unlock,
    speakerFrom: (before) => createSpeaker(sound, before),
    tryOut: () => sound.announce('smoke-on', ['smoke-on']),
    end: sound.end,
  };
}
