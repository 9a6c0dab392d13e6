import type { FlightFact } from '../../core/guidance/flight-event.ts';
import type { GuidanceState } from '../../core/guidance/guidance-state.ts';
import type { LinkInstant } from '../../link/link-clock.ts';
import type { ShipSeen } from '../../link/ship-seen.ts';
import { DATUMS_APART_SECONDS, type FlownHere, leadsHeard } from './leads-heard.ts';

/** A message that comes a second later than the one before is no news. */
const NEWS_SECONDS = 2;

/**
 * What this ship is to hear of the lead's datum, by the link; null when that is no news. Without a lead that is there now,
 * and while its devices differ, the last that was heard stands.
 */
export function timeOfLead(ships: readonly ShipSeen[], state: GuidanceState, own: FlownHere, now: LinkInstant): FlightFact | null {
  if (state.phase === 'idle' || state.phase === 'finished') return null;
  const { formation } = state.flight;
  if (formation === null || formation.clockBroken) return null;
  const [first, ...others] = leadsHeard(ships, state.flight, own, now);
  if (first === undefined || others.some(({ laterSeconds }) => Math.abs(laterSeconds - first.laterSeconds) > NEWS_SECONDS)) return null;
  const { laterSeconds } = first;
  const known = formation.leadTimed;
  if (Math.abs(laterSeconds) <= DATUMS_APART_SECONDS) return known === null ? null : { kind: 'leadTimed', laterSeconds: null };
  if (known !== null && Math.abs(laterSeconds - known.laterSeconds) <= NEWS_SECONDS) return null;
  return { kind: 'leadTimed', laterSeconds: Math.round(laterSeconds * 10) / 10 };
}
