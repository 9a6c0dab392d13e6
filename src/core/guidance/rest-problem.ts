import type { RestOrder, RestProblem } from '../order/rest-of-flight.ts';
import type { FlightFact } from './flight-event.ts';
import type { GuidanceState } from './guidance-state.ts';
import { airPoseOf, isTrusted, predictedAt } from './present.ts';
import { startAlongMetres, strokeStart } from './strokes/stroke-start.ts';

/** The order is thought out and the turn told within this. */
const AHEAD_SECONDS = 1.5;

/**
 * What is left of a ship's flight, for its order to be chosen anew, also while it holds; null while nothing may change: under smoke,
 * on a run-in, on the circle for the wind, in a formation, without a place, and in a flight whose plan did not say how its order was bound.
 */
export function restProblem(state: GuidanceState): RestProblem | null {
  if (state.phase !== 'holding' && (state.phase !== 'repositioning' || state.onRunIn || state.windCircle !== null)) return null;
  const { flight } = state;
  const fromSeconds = state.phase === 'holding' ? flight.atSeconds : Math.max(flight.atSeconds, state.runOutUntilSeconds);
  const { setup, progress, sequence } = flight;
  if (setup.rest === undefined || flight.formation !== null || !isTrusted(flight)) return null;
  const left = sequence.filter((index) => progress[index]!.status === 'to-fly');
  const done = sequence.filter((index) => progress[index]!.status !== 'to-fly').map((index) => setup.strokes[index]!.letterIndex);
  return {
    pose: airPoseOf(predictedAt(flight, fromSeconds + AHEAD_SECONDS)!, flight),
    strokes: left.map((strokeIndex) => {
      const { letterIndex, path } = setup.strokes[strokeIndex]!;
      const one = progress[strokeIndex]!;
      const broken = one.status === 'to-fly' && one.smokedMetres > 0;
      return { strokeIndex, letterIndex, path, from: broken ? { pose: strokeStart(flight, strokeIndex), alongMetres: startAlongMetres(one) } : null };
    }),
    limits: setup,
    ...setup.rest,
    // The letter that is being written is finished in its turn like any other.
    lettersBegun: done.filter((letterIndex) => letterIndex !== done.at(-1)),
  };
}

/** The fact of an order that was found, or of one that the pilot chose for its first stroke. */
export function restOrdered({ strokes }: RestOrder, byPilot = false): FlightFact {
  return { kind: 'restOrdered', rest: strokes, ...(byPilot ? { chosen: true } : {}) };
}
