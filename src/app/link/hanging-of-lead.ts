import type { FlightFact } from '../../core/guidance/flight-event.ts';
import type { GuidanceState } from '../../core/guidance/guidance-state.ts';
import type { ShipState } from '../../core/wire/link-messages.ts';
import { figuresFromWind, windFromFigures } from '../../core/wire/hanging-figures.ts';
import { elapsedMilliseconds, type LinkInstant } from '../../link/link-clock.ts';
import type { ShipSeen } from '../../link/ship-seen.ts';

/** A lead tells its state every second; what is older holds no more. */
const OLDEST_SECONDS = 5;
/** Ships whose datums lie farther apart fly no timetable together. */
const DATUMS_APART_SECONDS = 10;

/** Which job and which kind of flight this ship flies. */
export interface FlownHere {
  /** Null where it is not known; nothing is then taken from the lead. */
  readonly jobDigest: string | null;
  readonly flightKind: NonNullable<ShipState['formation']>['flightKind'];
}

/**
 * What this ship is to hear of how the lead hangs the text, by the link; null when that is no news. Heard is only a lead that is there
 * now and flies the very same job, the same kind of flight and the same datum as this ship, and only while all devices of the lead agree.
 */
export function hangingOfLead(ships: readonly ShipSeen[], state: GuidanceState, own: FlownHere, now: LinkInstant): FlightFact | null {
  if (state.phase === 'idle' || state.phase === 'finished') return null;
  const { formation, setup, datumAtSeconds, atSeconds } = state.flight;
  if (formation === null || setup.shipIndex === 0 || datumAtSeconds === null || own.jobDigest === null) return null;
  const told = new Set(
    ships.flatMap(({ last, ended, jobDigest }): (string | null)[] => {
      const lead = last?.state.formation ?? null;
      if (last === null || lead === null || last.state.shipIndex !== 0 || last.retained || ended) return [];
      const agoSeconds = elapsedMilliseconds(last.at, now) / 1000;
      if (agoSeconds > OLDEST_SECONDS || lead.datumInSeconds === null) return [];
      const datumsApartSeconds = Math.abs(lead.datumInSeconds - agoSeconds - (datumAtSeconds - atSeconds));
      const same = jobDigest === own.jobDigest && lead.flightKind === own.flightKind;
      return same && datumsApartSeconds <= DATUMS_APART_SECONDS ? [lead.hungFor] : [];
    }),
  );
  const [hungFor] = told;
  if (told.size !== 1 || hungFor === undefined) return null;
  const known = formation.lead === null || formation.lead.wind === null ? null : figuresFromWind(formation.lead.wind);
  if (hungFor === known) return null;
  const read = hungFor === null ? null : windFromFigures(hungFor);
  return read?.ok === false ? null : { kind: 'hangingGiven', wind: read?.wind ?? null, by: 'link' };
}
