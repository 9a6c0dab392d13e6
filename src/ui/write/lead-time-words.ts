import type { FlightFact } from '../../core/guidance/flight-event.ts';
import { waitsForLeadsTime } from '../../core/guidance/formation/formation-progress.ts';
import type { GuidanceState } from '../../core/guidance/guidance-state.ts';
import { formatShortTime } from '../../core/text/number-formats.ts';

/** A lead with another datum, as a pilot before its first smoke reads it. */
export interface LeadTimeWords {
  readonly words: string;
  readonly touches: readonly { readonly label: string; readonly fact: Extract<FlightFact, { kind: 'datumTimed' | 'leadTimed' }> }[];
}

/**
 * What a ship on its circle, or on its way there, does about a lead whose datum is another, as the link has it: it waits, and its pilot
 * takes the lead's by a touch, or stays by its own, which is the right one where the lead pressed late. Null where there is nothing to do.
 */
export function leadTimeWords(state: GuidanceState): LeadTimeWords | null {
  if (state.phase !== 'repositioning') return null;
  const { formation, datumAtSeconds, atSeconds, wallMilliseconds } = state.flight;
  const timed = formation?.leadTimed ?? null;
  if (timed === null || datumAtSeconds === null || !waitsForLeadsTime(formation)) return null;
  const { laterSeconds } = timed;
  const datumWallMilliseconds = Math.round(wallMilliseconds + (datumAtSeconds + laterSeconds - atSeconds) * 1000);
  return {
    words: `Your time is ${formatShortTime(Math.abs(laterSeconds))} ${laterSeconds > 0 ? 'ahead of' : 'behind'} lead’s`,
    touches: [
      { label: 'Use lead’s time', fact: { kind: 'datumTimed', datumWallMilliseconds } },
      { label: 'Keep mine', fact: { kind: 'leadTimed', laterSeconds, kept: true } },
    ],
  };
}
