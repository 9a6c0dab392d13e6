import type { WindVector } from '../../earth/wind-vector.ts';
import type { FlyingState } from '../guidance-state.ts';
import { asBriefed } from './hang-text.ts';
import { hangWithin } from './hang-within.ts';

/**
 * A ship of a formation hangs the text for the wind that all were told, while it is at its own height: circles, ways and strokes move
 * alike for every ship, so that what was proven of them stands. Null once it is on its way to the layer.
 */
export function hungAsGiven(state: FlyingState, wind: WindVector | null): FlyingState | null {
  const { flight } = state;
  const { formation, setup } = flight;
  const wish = setup.formation?.hanging;
  if (state.phase !== 'repositioning' || formation === null || wish === undefined || formation.toLayerSinceSeconds !== null) return null;
  if (formation.part !== 'joining' && formation.part !== 'circling') return null;
  const hanging = wind === null ? asBriefed(wish, setup.forecastWind) : hangWithin(wish, wind);
  return {
    ...state,
    way: null,
    flight: {
      ...flight,
      hanging,
      movedEastMetres: hanging.movedEastMetres,
      movedNorthMetres: hanging.movedNorthMetres,
      formation: { ...formation, part: 'joining', turnedRadians: 0, lastBearingRadians: null },
    },
  };
}
