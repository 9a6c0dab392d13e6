import { fc } from '../property.ts';
import { describe, expect, it } from 'vitest';
import { ageAtArrival, heardAnswer, heardLive, isClockInDoubt, type SenderClock } from '../../src/link/sender-clock.ts';

const FIVE_MINUTES = 300_000;

/** A sender whose clock is behind ours by an offset. */
function live(offset: number, delays: readonly number[]): SenderClock {
  return delays.reduce<SenderClock | null>((clock, delay, index) => heardLive(clock, index * 1000, index * 1000 + offset + delay), null)!;
}

describe('the age of what another device says', () => {
  it('is plain while the clocks agree', () => {
    expect(ageAtArrival(live(300, [120, 80, 200]), 50_000, 50_000 + 300 + 150)).toEqual({ kind: 'known', ageMilliseconds: 450 });
  });

  it('is not known while a clock five minutes off and a message five minutes late look the same', () => {
    const clock = live(FIVE_MINUTES, [100, 120]);
    expect(isClockInDoubt(clock)).toBe(true);
    expect(ageAtArrival(clock, 9000, 9000 + FIVE_MINUTES + 100).kind).toBe('unknown');
  });

  it('is known again after one question and its answer', () => {
    const doubtful = live(-FIVE_MINUTES, [100]);
    // Asked at 10,000 by our clock, 60 ms away; the sender's clock is five minutes ahead.
    const clock = heardAnswer(doubtful, 10_000, 10_060 + FIVE_MINUTES, 10_070 + FIVE_MINUTES, 10_130)!;
    expect(clock.answered).toEqual({ offsetMilliseconds: -FIVE_MINUTES, errorMilliseconds: 60 });
    expect(ageAtArrival(clock, 20_000 + FIVE_MINUTES, 20_200)).toEqual({ kind: 'known', ageMilliseconds: 260 });
  });

  it('asks anew when the sender\u2019s clock has been set', () => {
    const clock = heardAnswer(live(0, [50]), 0, 40, 50, 90)!;
    expect(isClockInDoubt(heardLive(clock, 500_000, 500_000 - FIVE_MINUTES))).toBe(true);
  });

  it('trusts no answer that took longer than it is worth', () => {
    expect(heardAnswer(null, 0, 3000, 3000, 6000)).toBeNull();
  });

  it('does not take what was retained for live: before anything live, no age is known', () => {
    expect(ageAtArrival(null, 0, 500).kind).toBe('unknown');
  });

  it('never makes a message younger than it is by more than the error it states (after an answer)', () => {
    const times = fc.record({
      offset: fc.integer({ min: -1e7, max: 1e7 }),
      there: fc.integer({ min: 0, max: 1900 }),
      back: fc.integer({ min: 0, max: 1900 }),
      age: fc.integer({ min: 0, max: 1e6 }),
    });
    fc.assert(
      fc.property(times, ({ offset, there, back, age }) => {
        const asked = 50_000_000;
        const itsReceived = asked + there - offset;
        const clock = heardAnswer(null, asked, itsReceived, itsReceived, asked + there + back)!;
        const found = ageAtArrival(clock, 60_000_000 - age - offset, 60_000_000);
        expect(found.kind).toBe('known');
        if (found.kind !== 'known') return;
        expect(found.ageMilliseconds).toBeGreaterThanOrEqual(age);
        expect(found.ageMilliseconds).toBeLessThanOrEqual(age + there + back);
      }),
    );
  });

  it('keeps a replayed message as old as it is', () => {
    const clock = live(0, [100, 90, 110]);
    expect(ageAtArrival(clock, 1000, 200_000)).toEqual({ kind: 'known', ageMilliseconds: 199_000 });
    expect(ageAtArrival(heardLive(clock, 1000, 200_000), 199_900, 200_000)).toEqual({ kind: 'known', ageMilliseconds: 100 });
  });
});
