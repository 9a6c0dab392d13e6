import { describe, expect, it } from 'vitest';
import { type GuidanceState, initialState } from '../../src/core/guidance/guidance-state.ts';
import { reduce } from '../../src/core/guidance/reduce.ts';
import { flyByFigures } from './hang-by-figures.ts';

describe('three ships that hang a word by figures on the radio', () => {
  it('hang it in one place, level, and apart; a figure mistyped is refused and typed again', { timeout: 60_000 }, () => {
    const briefed = flyByFigures('SPRING', 2, null);
    const radio = flyByFigures('SPRING', 2, { by: { mistypedBy: 1 } });
    expect(radio).toMatchObject({ whole: true, alike: true, refusedFigures: ['The check figure does not fit: ask for them again'] });
    expect(Math.abs(radio.leanDegrees)).toBeLessThan(6);
    expect(Math.abs(briefed.leanDegrees)).toBeGreaterThan(Math.abs(radio.leanDegrees) + 4);
    expect(radio.nearest?.metres ?? Infinity).toBeGreaterThan(300);
    // Under way to the layer nothing moves any more.
    const [events] = radio.events;
    let state: GuidanceState = initialState;
    for (const event of events!) {
      state = reduce(state, event);
      if (state.phase === 'repositioning' && state.flight.formation?.part === 'timetable') break;
    }
    if (state.phase !== 'repositioning') throw new Error(state.phase);
    const { atSeconds, wallMilliseconds } = state.flight;
    expect(reduce(state, { kind: 'hangingGiven', wind: null, atSeconds, wallMilliseconds })).toBe(state);
  });
});
