import type { Flight } from '../../core/guidance/guidance-state.ts';
import type { ShipState } from '../../core/wire/link-messages.ts';
import { elapsedMilliseconds, type LinkInstant } from '../../link/link-clock.ts';
import type { ShipSeen } from '../../link/ship-seen.ts';
import type { FlightHere } from '../flight/flight-here.ts';

/** A ship tells its state every second; what is older holds no more. */
export const OLDEST_SECONDS = 5;
/**
 * Ships whose datums lie farther apart fly no timetable together: hands are up to 2 s apart, a message is a second or two
 * on its way, and lateness of 10 s was proven in all.
 */
export const DATUMS_APART_SECONDS = 5;

/** Which job and which kind of flight this ship flies. */
export interface FlownHere {
  /** Null where it is not known; nothing is then taken from the lead. */
  readonly jobDigest: string | null;
  readonly flightKind: NonNullable<ShipState['formation']>['flightKind'];
}

/** What a flight on this device is held against; the digest is that of its job, null where it is not known. */
export function flownHere({ source }: FlightHere, jobDigest: string | null): FlownHere {
  return { jobDigest, flightKind: ({ device: 'flight', rehearsal: 'rehearsal', walking: 'rehearsal', recorded: 'replay' } as const)[source] };
}

/** What a device of the lead tells now. */
export interface LeadHeard {
  /** As figures on the radio; null as briefed. */
  readonly hungFor: string | null;
  /** By how much its datum is later than this ship's. */
  readonly laterSeconds: number;
}

/** How much later the datum of another ship is than this one's, by no clock but both ships' own; null where it tells none now. */
export function laterDatumSeconds({ last, ended }: ShipSeen, { datumAtSeconds, atSeconds }: Flight, now: LinkInstant): number | null {
  const datumInSeconds = last?.state.formation?.datumInSeconds ?? null;
  if (last === null || datumInSeconds === null || datumAtSeconds === null || last.retained || ended) return null;
  const agoSeconds = elapsedMilliseconds(last.at, now) / 1000;
  return agoSeconds > OLDEST_SECONDS ? null : datumInSeconds - agoSeconds - (datumAtSeconds - atSeconds);
}

/** What a ship hears from its lead: from every device that is there now as the lead of the very same job and kind of flight. The lead hears nothing. */
export function leadsHeard(ships: readonly ShipSeen[], flight: Flight, own: FlownHere, now: LinkInstant): readonly LeadHeard[] {
  if (flight.setup.shipIndex === 0 || own.jobDigest === null) return [];
  return ships.flatMap((ship) => {
    const lead = ship.last?.state.formation ?? null;
    const laterSeconds = laterDatumSeconds(ship, flight, now);
    if (lead === null || laterSeconds === null || ship.last?.state.shipIndex !== 0) return [];
    return ship.jobDigest === own.jobDigest && lead.flightKind === own.flightKind ? [{ hungFor: lead.hungFor, laterSeconds }] : [];
  });
}
