import { describe, expect, it } from 'vitest';
import type { ObserverEntry, ObserverFact } from '../../../src/core/wire/observer-log.ts';
import { onLastHack } from '../../../src/core/wire/on-last-hack.ts';

const AT = Date.UTC(2027, 5, 19, 17, 20);
const entry = (sequence: number, seconds: number, sinceDatumSeconds: number | null, fact: ObserverFact): ObserverEntry => ({
  sequence,
  atMilliseconds: AT + seconds * 1000,
  sinceDatumSeconds,
  ...fact,
});
const hack = (sequence: number, seconds: number, aheadSeconds: number, source: 'radio' | 'plan' = 'radio'): ObserverEntry =>
  entry(sequence, seconds, 0 - aheadSeconds, { kind: 'hack', source, datumMilliseconds: AT + (seconds + aheadSeconds) * 1000 });
const note = (sequence: number, seconds: number, since: number | null): ObserverEntry => entry(sequence, seconds, since, { kind: 'noted', text: 'thin cloud' });
const times = (entries: readonly ObserverEntry[]): (number | null)[] => onLastHack(entries).map(({ sinceDatumSeconds }) => sinceDatumSeconds);

describe('onLastHack', () => {
  it('counts what was written before the clock was set again by the same first smoke', () => {
    // Three minutes called; 42 s later the smoke is on.
    expect(times([hack(0, 0, 180), note(1, 20, -160), hack(2, 42, 0), note(3, 50, 8)])).toEqual([-42, -22, 0, 8]);
    // Set once more, a second later.
    expect(times([hack(0, 0, 180), note(1, 20, -160), hack(2, 42, 0), hack(3, 43, 0)])).toEqual([-43, -23, -1, 0]);
  });

  it('leaves another flight, a return to the plan and what had no clock as they were', () => {
    expect(times([hack(0, 0, 0), note(1, 60, 60), hack(2, 3_600, 0)])).toEqual([0, 60, 0]);
    expect(times([hack(0, 0, 0), note(1, 60, 60), hack(2, 90, 9_000, 'plan')])).toEqual([0, 60, -9_000]);
    expect(times([note(0, 0, null), hack(1, 30, 0), note(2, 40, 10)])).toEqual([null, 0, 10]);
  });
});
