import type { FlightFact } from '../../core/guidance/flight-event.ts';
import type { GuidanceState } from '../../core/guidance/guidance-state.ts';
import { figuresFromWind, windFromFigures } from '../../core/wire/hanging-figures.ts';
import type { LinkInstant } from '../../link/link-clock.ts';
import type { ShipSeen } from '../../link/ship-seen.ts';
import { DATUMS_APART_SECONDS, type FlownHere, leadsHeard } from './leads-heard.ts';

/**
 * What this ship is to hear of how the lead hangs the text, by the link; null when that is no news. Heard is only a lead that is there
 * now and flies the very same job, the same kind of flight and the same datum as this ship, and only while all devices of the lead agree.
 */
export function hangingOfLead(ships: readonly ShipSeen[], state: GuidanceState, own: FlownHere, now: LinkInstant): FlightFact | null {
  if (state.phase === 'idle' || state.phase === 'finished') return null;
  const { formation } = state.flight;
  if (formation === null) return null;
  const leads = leadsHeard(ships, state.flight, own, now);
  const told = new Set(leads.flatMap(({ hungFor, laterSeconds }) => (Math.abs(laterSeconds) <= DATUMS_APART_SECONDS ? [hungFor] : [])));
  const [hungFor] = told;
  if (told.size !== 1 || hungFor === undefined) return null;
  const known = formation.lead === null || formation.lead.wind === null ? null : figuresFromWind(formation.lead.wind);
  if (hungFor === known) return null;
  const read = hungFor === null ? null : windFromFigures(hungFor);
  return read?.ok === false ? null : { kind: 'hangingGiven', wind: read?.wind ?? null, by: 'link' };
}
