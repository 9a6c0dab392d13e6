import type { DebriefedFlight } from '../../app/debrief/desk-types.ts';
import { clockText } from '../words/clock.ts';

const KINDS: Readonly<Record<DebriefedFlight['kind'], string>> = { flight: 'flight', rehearsal: 'rehearsal', replay: 'recording flown again' };

/** A flight in the list: when, what kind, and which of several ships; flights of an earlier version do not say the ship. */
export function flightTitle({ startedAtMilliseconds, kind, setupText }: DebriefedFlight, timeZone: string, shipCount: number): string {
  const ship = shipCount > 1 ? shipIn(setupText) : null;
  return `${clockText(startedAtMilliseconds, timeZone, { day: 'date' })}, ${KINDS[kind]}${ship === null ? '' : ` as ${ship}`}`;
}

function shipIn(setupText: string): string | null {
  try {
    const { shipName } = JSON.parse(setupText) as { readonly shipName?: unknown };
    return typeof shipName === 'string' && shipName !== '' ? shipName : null;
  } catch {
    return null;
  }
}
