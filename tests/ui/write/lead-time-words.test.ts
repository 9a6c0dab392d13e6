import { expect, test } from 'vitest';
import type { FlyingState } from '../../../src/core/guidance/guidance-state.ts';
import { reduce } from '../../../src/core/guidance/reduce.ts';
import type { FlightFact } from '../../../src/core/guidance/flight-event.ts';
import { leadTimeWords } from '../../../src/ui/write/lead-time-words.ts';
import { flySortie } from '../../flight/fly-sortie.ts';
import { sortieOf } from '../../flight/ships-from-anywhere.ts';

/** Two of a sortie on its circle. */
const two = ((): FlyingState => {
  let found: FlyingState | null = null;
  flySortie(sortieOf(26), (shipIndex, _, state) => {
    if (shipIndex === 1 && found === null && state.phase === 'repositioning' && state.flight.formation?.part === 'circling') found = state;
  });
  return found!;
})();

function after(state: FlyingState, fact: FlightFact): FlyingState {
  const { atSeconds, wallMilliseconds } = state.flight;
  return reduce(state, { ...fact, atSeconds, wallMilliseconds }) as FlyingState;
}

test('a lead with another datum is told with what can be done, until the pilot has done it', () => {
  expect(leadTimeWords(two)).toBeNull();
  const apart = after(two, { kind: 'leadTimed', laterSeconds: -25.3 });
  const offered = leadTimeWords(apart)!;
  expect(offered.words).toBe('Your time is 25 s behind lead’s');
  const [take, keep] = offered.touches;
  expect([take!.label, keep!.label]).toEqual(['Use lead’s time', 'Keep mine']);
  const taken = after(apart, take!.fact);
  expect(taken.flight.datumAtSeconds! - two.flight.datumAtSeconds!).toBeCloseTo(-25.3, 2);
  expect([taken.flight.formation!.leadTimed, leadTimeWords(taken)]).toEqual([null, null]);
  const kept = after(apart, keep!.fact);
  expect(kept.flight.datumAtSeconds).toBe(two.flight.datumAtSeconds);
  expect(leadTimeWords(kept)).toBeNull();
  // The lead presses anew: that is another time, and is told again.
  expect(leadTimeWords(after(kept, { kind: 'leadTimed', laterSeconds: 300 }))!.words).toBe('Your time is 5:00 min ahead of lead’s');
});
