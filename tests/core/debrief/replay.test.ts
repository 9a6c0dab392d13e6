import { describe, expect, it } from 'vitest';
import { flightTimes } from '../../../src/core/debrief/flight-time.ts';
import { CHECKPOINT_EVENTS, createReplay } from '../../../src/core/debrief/replay.ts';
import type { FlightEvent } from '../../../src/core/guidance/flight-event.ts';
import { flyWord, worldFor } from './flown-word.ts';

const touches: readonly FlightEvent['kind'][] = ['held', 'holdReleased', 'strokeRedone', 'strokeSkipped', 'lastTouchUndone'];

describe('replay equals flight (P13)', () => {
  it.each([
    ['L', 11],
    ['V', 12],
  ] as const)('%s, seed %i: every cue of the log is the cue that was shown', (text, seed) => {
    const { shown, replay } = flyWord(text, worldFor(seed, { fixLosses: (_, atSeconds) => atSeconds > 80 && atSeconds < 90 }));
    expect(shown.length).toBeGreaterThan(1000);
    for (const { atSeconds, cues } of shown) expect(replay.cuesAt(atSeconds)).toEqual(cues);
    expect(new Set(shown.map(({ cues }) => cues.phase)).size).toBeGreaterThan(4);
  });

  it('answers in any order, and only as far as it has come', () => {
    const { events } = flyWord('L', worldFor(13));
    const replay = createReplay(events);
    const whole = createReplay(events);
    whole.advance(events.length);
    expect(replay.cuesAt(replay.endSeconds)).toBeNull();
    expect(replay.cuesAt(-1)).toBeNull();
    replay.advance(3 * CHECKPOINT_EVENTS + 5);
    expect(replay.doneCount()).toBe(3 * CHECKPOINT_EVENTS + 5);
    const times = flightTimes(events);
    for (const index of [100, 3, 64, 63, 65, 0, 99]) expect(replay.cuesAt(times[index]!)).toEqual(whole.cuesAt(times[index]!));
    expect(replay.cuesAt(times[3 * CHECKPOINT_EVENTS + 5]!)).toBeNull();
    replay.advance(Infinity);
    expect(replay.doneCount()).toBe(events.length);
    expect(replay.replayed()).toEqual(whole.replayed());
  });

  it('counts the touches of the pilot in', () => {
    const { events } = flyWord('L', worldFor(14));
    const middle = Math.floor(events.length / 2);
    const touched = [
      ...events.slice(0, middle),
      ...touches.map((kind, index) => ({ ...events[middle]!, kind, atSeconds: events[middle]!.atSeconds + index * 1e-4 }) as FlightEvent),
      ...events.slice(middle + 1),
    ];
    const replay = createReplay(touched);
    replay.advance(touched.length);
    expect(replay.replayed().changes.some(({ phase }) => phase === 'hold')).toBe(true);
  });
});

describe('flight times', () => {
  const at = (atSeconds: number, wallSeconds: number): FlightEvent => ({ kind: 'clockAdvanced', atSeconds, wallMilliseconds: wallSeconds * 1000 });

  it('go on through a sleep, in which the monotonic clock stands still', () => {
    expect([...flightTimes([at(0, 100), at(1, 101), at(1.1, 131), at(2.1, 132)])]).toEqual([0, 1, 31, 32].map((seconds) => expect.closeTo(seconds, 9)));
  });

  it('do not follow a clock that somebody set, and never run backward', () => {
    expect([...flightTimes([at(0, 100), at(1, 101), at(2, 21_702), at(3, 21_703)])]).toEqual([0, 1, 2, 3]);
    expect([...flightTimes([at(0, 100), at(5, 105), at(4, 50), at(6, 52)])]).toEqual([0, 5, 5, 6]);
    expect([...flightTimes([])]).toEqual([]);
  });
});
