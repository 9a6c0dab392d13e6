import type { FlightFact } from '../../src/core/guidance/flight-event.ts';
import type { FlyingState } from '../../src/core/guidance/guidance-state.ts';
import { reduce } from '../../src/core/guidance/reduce.ts';
import { flySortie } from './fly-sortie.ts';
import { sortieOf } from './ships-from-anywhere.ts';

/** Two of a sortie on its circle, where it hangs the word as briefed. */
export function twoOnCircle(): FlyingState {
  let found: FlyingState | null = null;
  flySortie(sortieOf(26), (shipIndex, _, state) => {
    if (shipIndex === 1 && found === null && state.phase === 'repositioning' && state.flight.formation?.part === 'circling') found = state;
  });
  return found!;
}

/** What a fact of this very moment leaves. */
export function after(state: FlyingState, fact: FlightFact): FlyingState {
  const { atSeconds, wallMilliseconds } = state.flight;
  return reduce(state, { ...fact, atSeconds, wallMilliseconds }) as FlyingState;
}
