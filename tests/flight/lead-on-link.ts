import type { FlownHere } from '../../src/app/link/leads-heard.ts';
import type { GuidanceState } from '../../src/core/guidance/guidance-state.ts';
import type { LinkInstant } from '../../src/link/link-clock.ts';
import { newShip, type ShipSeen } from '../../src/link/ship-seen.ts';
import { TOLD_STATE } from '../link/told-state.ts';

/** The job and kind of flight that all ships of a simulated link fly. */
export const FLOWN_HERE: FlownHere = { jobDigest: 'd'.repeat(24), flightKind: 'flight' };

export const instantOf = (seconds: number): LinkInstant => ({ monotonicMilliseconds: seconds * 1000, wallMilliseconds: seconds * 1000 });

/**
 * The lead as another ship sees it on a link.
 *
 * @param heardAtSeconds when its last message came, and for how long that was on its way, which nobody knows
 */
export function leadOnLink(state: GuidanceState, heardAtSeconds: number, onItsWaySeconds: number): ShipSeen {
  const ship: ShipSeen = { ...newShip('lead'), shipIndex: 0, name: 'Lead', jobDigest: FLOWN_HERE.jobDigest, flightKind: FLOWN_HERE.flightKind };
  if (state.phase === 'idle') return ship;
  const { datumAtSeconds, atSeconds, formation, movedEastMetres, movedNorthMetres } = state.flight;
  const datumInSeconds = datumAtSeconds === null || formation?.clockBroken === true ? null : datumAtSeconds - atSeconds + 1 + onItsWaySeconds;
  const told = { flightKind: FLOWN_HERE.flightKind, datumInSeconds, hungFor: null, hungBy: 'plan', movedEastMetres, movedNorthMetres } as const;
  const sent = { v: 1, device: 'lead', boot: 'b1', sentAtMilliseconds: heardAtSeconds * 1000, eventCount: 1, shipIndex: 0 } as const;
  return { ...ship, last: { at: instantOf(heardAtSeconds), retained: false, state: { ...TOLD_STATE, ...sent, formation: told } } };
}
