import { signal } from '@preact/signals';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { laterVoice } from '../../../../src/app/flight/voice/later-voice.ts';
import type { FlightVoice } from '../../../../src/app/flight/voice/speaker-types.ts';
import { createSpeaker } from '../../../../src/app/flight/voice/speaker.ts';
import type { SoundState } from '../../../../src/sound/sound.ts';
import { someCues } from '../../../ui/write/some-cues.ts';

const said: (readonly string[])[] = [];

function someVoice(): FlightVoice {
  return {
    state: signal<SoundState>('on'),
    unlock: vi.fn(),
    speakerFrom: (before) => createSpeaker({ announce: (_tone, words) => void said.push(words) }, before),
    tryOut: vi.fn(),
    end: vi.fn(),
  };
}

describe('laterVoice', () => {
  beforeEach(() => {
    vi.useFakeTimers();
    said.length = 0;
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it('is silent until its code is there, and then says what has changed since before the flight', async () => {
    let arrive = (_voice: FlightVoice): void => {};
    const later = laterVoice(() => new Promise((resolve) => (arrive = resolve)));
    const speaker = later.speakerFrom({ ...someCues, phase: 'stroke', smoke: 'on', smokeInSeconds: null });
    const noCue = { ...someCues, phase: 'no-cue', smoke: null, smokeInSeconds: null } as const;
    expect(speaker.follow(noCue, 1)).toBeNull();
    expect([later.state.value, said]).toEqual(['untouched', []]);
    arrive(someVoice());
    await vi.advanceTimersByTimeAsync(0);
    expect(speaker.follow(noCue, 1.1)?.spoken.text).toBe('1 no-cue smoke-off');
    expect([later.state.value, said]).toEqual(['on', [['no-cue', 'smoke-off']]]);
  });

  it('is fetched again when that failed, and never after its end', async () => {
    const voice = someVoice();
    const load = vi.fn<() => Promise<FlightVoice>>().mockRejectedValueOnce(new Error('offline')).mockResolvedValueOnce(voice);
    const later = laterVoice(load);
    await vi.advanceTimersByTimeAsync(2_000);
    later.unlock();
    later.end();
    expect([load.mock.calls.length, vi.mocked(voice.unlock).mock.calls.length, vi.mocked(voice.end).mock.calls.length]).toEqual([2, 1, 1]);
    const failing = vi.fn<() => Promise<FlightVoice>>().mockRejectedValue(new Error('offline'));
    const ended = laterVoice(failing);
    await vi.advanceTimersByTimeAsync(0);
    ended.end();
    await vi.advanceTimersByTimeAsync(10_000);
    expect(failing).toHaveBeenCalledTimes(1);
  });
});
