import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { DebriefDesk } from '../../app/debrief/desk-types.ts';
import type { FlightPlayer } from './flight-player.ts';

/** Which picture of the flight is shown. */
export type DebriefPane = 'above' | 'below' | 'ground' | 'crowd';

/** What the parts of the Debrief screen share. */
export interface DebriefParts {
  readonly desk: DebriefDesk;
  readonly player: FlightPlayer;
}

export const DebriefContext = createContext<DebriefParts | null>(null);

/** The desk and the player around this component. Throws an Error outside of the Debrief screen. */
export function useDebrief(): DebriefParts {
  const parts = useContext(DebriefContext);
  if (parts === null) throw new Error('This component must stand on the Debrief screen.');
  return parts;
}
