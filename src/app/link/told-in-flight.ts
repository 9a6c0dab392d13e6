import type { GuidanceState } from '../../core/guidance/guidance-state.ts';
import type { LinkInstant } from '../../link/link-clock.ts';
import type { RoomView } from '../../link/link-room.ts';
import type { FlightHere } from '../flight/flight-here.ts';
import { type GroundCallShown, groundCallsShown } from './ground-calls.ts';
import { flownHere } from './leads-heard.ts';
import { createNearShips, type ShipCaution } from './near-ships.ts';
import { sameShipWords } from './same-ship.ts';

/** What a pilot in flight is told from the link. */
export interface ToldInFlight {
  groundCalls(room: RoomView | null, now: LinkInstant): readonly GroundCallShown[];
  /** Words for other devices that fly as this ship. */
  sameShip(room: RoomView | null, shipIndex: number, now: LinkInstant): readonly string[];
  nearShips(room: RoomView | null, state: GuidanceState, heightFeet: number | null, now: LinkInstant): readonly ShipCaution[];
}

/** For one flight: it remembers how the other ships moved. */
export function createToldInFlight(flight: FlightHere, jobDigest: string | null): ToldInFlight {
  return {
    groundCalls: groundCallsShown,
    sameShip: (room, shipIndex, now) => sameShipWords(room?.ships ?? [], shipIndex, null, now),
    nearShips: createNearShips(flownHere(flight, jobDigest)),
  };
}
