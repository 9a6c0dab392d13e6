import { describe, expect, it } from 'vitest';
import { headingWords } from '../../../../src/app/flight/voice/spoken-order.ts';
import { silentVoice, type Voice, voiceAfter, voiceValue, withClose } from '../../../../src/app/flight/voice/voice.ts';
import type { Cues } from '../../../../src/core/guidance/cues.ts';
import { SPOKEN_SECONDS, type SpokenWord } from '../../../../src/sound/spoken-words.ts';
import { someCues } from '../../../ui/write/some-cues.ts';

const TICK = 0.1;
const quiet: Partial<Cues> = { heightFeet: null, part: null, established: null, smokeInSeconds: null, lateSeconds: null, next: null };

/** Cues that change at moments; what was said and when, ticked ten times a second. */
function listened(seconds: number, at: (seconds: number) => Partial<Cues>, disturb?: (voice: Voice, atSeconds: number) => Voice) {
  let voice = silentVoice({ ...someCues, ...quiet, ...at(0) });
  const heard: { readonly atSeconds: number; readonly words: string; readonly endsAtSeconds: number }[] = [];
  for (let tick = 0; tick <= seconds / TICK; tick += 1) {
    const atSeconds = tick * TICK;
    const { number } = voice;
    voice = voiceAfter(disturb?.(voice, atSeconds) ?? voice, { ...someCues, ...quiet, ...at(atSeconds) }, atSeconds);
    if (voice.number !== number) heard.push({ atSeconds, words: voice.announcement!.words.join(' '), endsAtSeconds: voice.endsAtSeconds });
  }
  return heard;
}

const words = (heard: ReturnType<typeof listened>): string[] => heard.map((one) => one.words);
const straight = { turn: 'straight', bankDegrees: 0, headingMagneticDegrees: 90 } as const;

describe('voiceAfter', () => {
  it('says a turn with its bank and its heading once, and the roll-out when it is due', () => {
    const heard = listened(14, (at) =>
      at < 12 ? { next: { ...straight, headingMagneticDegrees: 215, inSeconds: 12 - at } } : { ...straight, headingMagneticDegrees: 215 },
    );
    expect(words(heard)).toEqual(['left steep two one five', 'roll-out']);
    // Its last word falls when the hand should move.
    expect(heard[1]!.endsAtSeconds).toBeGreaterThan(11.8);
    expect(heard[1]!.endsAtSeconds).toBeLessThan(12.2);
  });

  it('says what comes next, then the turn alone when it is due', () => {
    const next = { turn: 'right', headingMagneticDegrees: 180, bankDegrees: 30 } as const;
    const heard = listened(10, (at) => (at < 8 ? { ...straight, next: { ...next, inSeconds: 8 - at } } : { ...next, next: null }));
    expect(words(heard)).toEqual(['straight zero nine zero', 'next right medium one eight zero', 'right']);
    expect(heard[2]!.endsAtSeconds).toBeLessThan(8.2);
  });

  it('says how late a ship is, again when it is later by ten seconds and half a minute has passed, and never under smoke', () => {
    const late = (at: number): number => (at < 5 ? 8 : at < 40 ? 43 : 61);
    const heard = listened(70, (at) => ({ ...straight, lateSeconds: late(at), phase: at < 60 ? 'reposition' : 'stroke' }));
    expect(words(heard)).toEqual(['straight zero nine zero', 'late four five', 'late six zero']);
    expect(words(listened(70, (at) => ({ ...straight, lateSeconds: late(at), phase: 'stroke' })))).toEqual(['straight zero nine zero']);
  });

  it('counts three, two, one to the smoke, and says it', () => {
    const heard = listened(10, (at) => ({
      ...straight,
      phase: at < 8 ? 'run-in' : 'stroke',
      smoke: at < 8 ? 'off' : 'on',
      smokeInSeconds: at < 8 ? 8.4 - at : 30,
    }));
    expect(words(heard)).toEqual(['straight zero nine zero', 'three', 'two', 'one', 'smoke-on']);
    expect(heard.map(({ atSeconds }) => Math.round(atSeconds * 10) / 10).slice(1)).toEqual([5.4, 6.4, 7.4, 8]);
  });

  it('lets nothing run into the countdown', () => {
    // A heading that moves 4 s before the smoke takes 1.6 s to say: it waits until the smoke is on.
    const heard = listened(10, (at) => ({
      ...straight,
      headingMagneticDegrees: at < 4.5 ? 90 : 97,
      phase: at < 8 ? 'run-in' : 'stroke',
      smoke: at < 8 ? 'off' : 'on',
      smokeInSeconds: at < 8 ? 8.4 - at : 30,
    }));
    expect(words(heard)).toEqual(['straight zero nine zero', 'three', 'two', 'one', 'smoke-on', 'straight zero nine seven']);
  });

  it('breaks in with the smoke at the end of a word, and cuts none', () => {
    const heard = listened(6, (at) => (at < 1 ? { smoke: 'on', phase: 'stroke' } : { smoke: 'off', phase: 'reposition' }));
    expect(words(heard)).toEqual(['left steep two one five', 'smoke-off']);
    const ends = ['left', 'steep', 'two', 'one', 'five'].reduce<number[]>(
      (sums, word) => [...sums, (sums.at(-1) ?? 0) + SPOKEN_SECONDS[word as SpokenWord]],
      [],
    );
    const { atSeconds } = heard[1]!;
    expect(ends.some((end) => atSeconds >= end && atSeconds - end <= TICK + 1e-9)).toBe(true);
  });

  it('never begins one thing before the last has ended', () => {
    const heard = listened(40, (at) => {
      const round = at % 8;
      return round < 5
        ? { next: { ...straight, headingMagneticDegrees: 100, inSeconds: 5 - round } }
        : { ...straight, headingMagneticDegrees: 100, next: { turn: 'left', bankDegrees: 45, headingMagneticDegrees: 215, inSeconds: 8 - round } };
    });
    expect(heard.length).toBeGreaterThan(8);
    heard.slice(1).forEach(({ atSeconds }, index) => expect(atSeconds).toBeGreaterThanOrEqual(heard[index]!.endsAtSeconds));
  });

  it('says no cue once, with the smoke off if it was on, and everything again afterwards', () => {
    const lost: Partial<Cues> = { phase: 'no-cue', turn: null, headingMagneticDegrees: null, bankDegrees: null, smoke: null };
    const heard = listened(12, (at) => (at < 3 ? { smoke: 'on', phase: 'stroke' } : at < 8 ? lost : { phase: 'reposition' }));
    expect(words(heard)).toEqual(['left steep two one five', 'no-cue smoke-off', 'left steep two one five']);
  });

  it('steers a heading that moved by four degrees on a line, not one that flickers', () => {
    const steered = listened(8, (at) => ({ ...straight, phase: 'stroke', smoke: 'on', headingMagneticDegrees: at < 4 ? 90 : 94 }));
    expect(words(steered)).toEqual(['straight zero nine zero', 'straight zero nine four']);
    const flickering = listened(8, (at) => ({ ...straight, phase: 'stroke', smoke: 'on', headingMagneticDegrees: Math.floor(at * 5) % 2 === 0 ? 90 : 95 }));
    expect(words(flickering)).toEqual(['straight zero nine zero']);
  });

  it('says of a bank that changed in a turn no more than the bank', () => {
    const heard = listened(10, (at) => ({ phase: 'stroke', smoke: 'on', bankDegrees: at < 4 ? 45 : 30 }));
    expect(words(heard)).toEqual(['left steep two one five', 'left medium']);
  });

  it('says no order that the cues ask for only a moment', () => {
    const heard = listened(8, (at) => ({ phase: 'reposition', ...(at >= 4 && at < 4.2 ? straight : {}) }));
    expect(words(heard)).toEqual(['left steep two one five']);
  });

  it('leaves a heading alone shortly before a turn, and what was told to come next stays told', () => {
    const next = { turn: 'right', headingMagneticDegrees: 180, bankDegrees: 30 } as const;
    const moving = (movedAt: number) => (at: number) =>
      at < 12
        ? { ...straight, phase: 'reposition' as const, headingMagneticDegrees: at < movedAt ? 90 : 96, next: { ...next, inSeconds: 12 - at } }
        : { ...next, next: null };
    expect(words(listened(13, moving(8.5)))).toEqual(['straight zero nine zero', 'next right medium one eight zero', 'right']);
    expect(words(listened(13, moving(5)))).toEqual(['straight zero nine zero', 'next right medium one eight zero', 'straight zero nine six', 'right']);
  });

  it('says that a line is to be passed again, a hold and the end', () => {
    expect(words(listened(6, (at) => (at < 2 ? straight : { phase: 'go-around' })))).toEqual([
      'straight zero nine zero',
      'pass-again',
      'left steep two one five',
    ]);
    const still = { turn: null, headingMagneticDegrees: null, bankDegrees: null } as const;
    expect(words(listened(6, (at) => (at < 2 ? straight : { phase: 'hold', ...still })))).toEqual(['straight zero nine zero', 'hold']);
    expect(words(listened(6, (at) => (at < 2 ? straight : { phase: 'finished', ...still })))).toEqual(['straight zero nine zero', 'finished']);
  });

  it('says that another ship is close, between words', () => {
    const heard = listened(
      3,
      () => ({}),
      (voice, at) => (Math.abs(at - 0.5) < 0.01 ? withClose(voice) : voice),
    );
    expect(words(heard)).toEqual(['left steep two one five', 'close']);
  });

  it('numbers what it says', () => {
    const voice = voiceAfter(silentVoice({ ...someCues, ...quiet }), { ...someCues, ...quiet }, 0);
    expect(voiceValue(silentVoice(someCues))).toBe('');
    expect(voiceValue(voice)).toBe('1 left steep two one five');
  });
});

describe('headingWords', () => {
  it('says north as three six zero', () => {
    expect(headingWords(359.7)).toEqual(['three', 'six', 'zero']);
    expect(headingWords(7)).toEqual(['zero', 'zero', 'seven']);
  });
});
