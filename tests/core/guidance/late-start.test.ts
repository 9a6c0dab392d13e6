import { describe, expect, it } from 'vitest';
import { wordJob } from '../../../e2e/flight/fly-word.ts';
import type { Job } from '../../../src/core/job/job.ts';
import { wordStanding } from '../../../src/core/guidance/hanging/word-standing.ts';
import { type GuidanceState, initialState } from '../../../src/core/guidance/guidance-state.ts';
import { reduce } from '../../../src/core/guidance/reduce.ts';
import { degreesFromRadians } from '../../../src/core/units/angle.ts';
import { flyLate } from '../../flight/fly-reordered.ts';

const word = wordJob('HELLO');
const free: Job = { ...word, options: { ...word.options, letterOrder: 'free', progress: 'free' } };

describe('a first smoke that was set for a time and cannot be kept', { timeout: 60_000 }, () => {
  it('is told by so many seconds, and what is to write is ordered anew from where the ship is', () => {
    const asPlanned = flyLate(free, 1, 60, false);
    expect(asPlanned.beganLateSeconds).toBeGreaterThan(60);
    expect(Math.abs(asPlanned.toldLateSeconds - asPlanned.beganLateSeconds)).toBeLessThan(30);
    const anew = flyLate(free, 1, 60, true);
    expect(anew.promisedSeconds).toBeGreaterThan(30);
    expect(anew.endedLateSeconds).toBeLessThan(asPlanned.endedLateSeconds - 30);
    if (anew.finalState.phase !== 'finished') throw new Error(anew.finalState.phase);
    expect(anew.finalState.flight.progress.every(({ status }) => status === 'flown')).toBe(true);
  });

  it('is hung for the last smoke as late as it will come, level to the crowd', () => {
    const { events, beganLateSeconds } = flyLate(word, 1, 60, false);
    expect(beganLateSeconds).toBeGreaterThan(60);
    const states = events.reduce<GuidanceState[]>((all, event) => [...all, reduce(all.at(-1) ?? initialState, event)], []);
    const last = states.findLast((state) => state.phase === 'onStroke');
    if (last === undefined || last.phase !== 'onStroke') throw new Error('never wrote');
    expect(last.flight.hanging?.lateSeconds).toBeGreaterThan(30);
    const standing = wordStanding(last)!;
    // Hung as if in time it would lean by 18 degrees and stand 2 km off.
    expect(Math.abs(degreesFromRadians(standing.leanRadians))).toBeLessThan(6);
    expect(standing.offMetres).toBeLessThan(1000);
  });

  it('changes nothing where there is time enough', () => {
    const inTime = flyLate(free, 1, 420, true);
    expect(inTime.toldLateSeconds).toBeLessThan(10);
    expect(inTime.promisedSeconds).toBe(0);
    expect(Math.abs(inTime.beganLateSeconds)).toBeLessThan(5);
  });
});
