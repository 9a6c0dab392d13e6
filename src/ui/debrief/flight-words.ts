import type { DebriefedFlight } from '../../app/debrief/desk-types.ts';
import { clockText } from '../words/clock.ts';

const KINDS: Readonly<Record<DebriefedFlight['kind'], string>> = { flight: 'flight', rehearsal: 'rehearsal', replay: 'recording flown again' };

/** A flight in the list: when, and what kind. */
export function flightTitle({ startedAtMilliseconds, kind }: DebriefedFlight, timeZone: string): string {
  return `${clockText(startedAtMilliseconds, timeZone, { day: 'date' })}, ${KINDS[kind]}`;
}
