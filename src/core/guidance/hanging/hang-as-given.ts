import type { FlightEvent } from '../flight-event.ts';
import type { FormationProgress } from '../formation/formation-progress.ts';
import type { FlyingState } from '../guidance-state.ts';
import { asBriefed } from './hang-text.ts';
import { hangWithin } from './hang-within.ts';
import { canBeHung, hangsFor } from './hung-alike.ts';

/**
 * A ship of a formation told how all hang the text: it does so as soon as it can, and remembers what the lead hangs. Null where that
 * means nothing: a ship alone, one that is done, and figures typed where they can no longer be hung.
 */
export function hangingHeard(state: FlyingState, { wind, by }: Extract<FlightEvent, { kind: 'hangingGiven' }>): FlyingState | null {
  const { formation, setup } = state.flight;
  if (formation === null || setup.formation?.hanging === undefined || state.phase === 'finished') return null;
  if (by !== 'link' && !canBeHung(state)) return null;
  const lead = by === 'refusal' ? formation.lead : { wind };
  return hungAsWanted(withProgress(state, { lead, wanted: { wind, by: by ?? 'hand' } }));
}

/**
 * The text hung as it was told, once the ship is at its own height, where all may pass each other; from the layer it goes there first,
 * on the circle that nobody else comes near. What was proven of circles, ways and strokes stands for every hanging that all share.
 */
export function hungAsWanted(state: FlyingState): FlyingState {
  const { flight } = state;
  const { formation, setup, atSeconds } = flight;
  const wish = setup.formation?.hanging;
  if (formation === null || formation.wanted === null || wish === undefined) return state;
  const { wind, by } = formation.wanted;
  if (hangsFor(flight, formation.wanted)) return withProgress(state, { wanted: null, hungBy: by });
  if (!canBeHung(state)) return state;
  if (formation.toLayerSinceSeconds !== null || atSeconds < formation.offLayerAtSeconds) return state;
  const hanging = wind === null ? asBriefed(wish, setup.forecastWind) : hangWithin(wish, wind);
  const { movedEastMetres, movedNorthMetres } = hanging;
  const hung = { ...state, way: null, flight: { ...flight, hanging, movedEastMetres, movedNorthMetres } };
  return withProgress(hung, { wanted: null, hungBy: by, part: 'joining', turnedRadians: 0, lastBearingRadians: null });
}

function withProgress<State extends FlyingState>(state: State, changes: Partial<FormationProgress>): State {
  return { ...state, flight: { ...state.flight, formation: { ...state.flight.formation!, ...changes } } };
}
