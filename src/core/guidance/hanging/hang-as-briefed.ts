import { asBriefed } from './hang-text.ts';
import type { FlyingState } from '../guidance-state.ts';

/** Before the first smoke the text goes back to where it was briefed; null where it hangs there already, or smoke has been laid. */
export function hungAsBriefed(state: FlyingState): FlyingState | null {
  const { flight } = state;
  const { hanging, setup } = flight;
  if (state.phase !== 'repositioning' || setup.hanging === undefined || flight.smokeCuedAtSeconds !== null || hanging?.kind === 'as-briefed') return null;
  return {
    ...state,
    way: null,
    onRunIn: false,
    flight: {
      ...flight,
      hanging: asBriefed(setup.hanging, setup.forecastWind),
      movedEastMetres: 0,
      movedNorthMetres: 0,
      expectedDatumAtSeconds: null,
    },
  };
}
