import type { HungFor } from '../formation/formation-progress.ts';
import type { Flight, FlyingState } from '../guidance-state.ts';

/** Before the first smoke, on its way to its circle or on it: circles, ways and strokes then move alike for every ship. */
export function canBeHung({ phase, flight: { formation, smokeCuedAtSeconds, smokedSeconds } }: FlyingState): boolean {
  if (phase !== 'repositioning' || smokeCuedAtSeconds !== null || smokedSeconds > 0) return false;
  return formation?.part === 'joining' || formation?.part === 'circling';
}

/** Whether the text hangs for this wind, or as briefed. */
export function hangsFor({ hanging }: Flight, { wind }: HungFor): boolean {
  if (hanging === null || hanging.kind === 'as-briefed') return wind === null;
  return (
    wind !== null &&
    Math.hypot(wind.eastMetresPerSecond - hanging.wind.eastMetresPerSecond, wind.northMetresPerSecond - hanging.wind.northMetresPerSecond) < 1e-6
  );
}

/** Whether the lead is known to hang it otherwise: apart from each other nothing was proven, and no circle is left. */
export function leadHangsOtherwise(flight: Flight): boolean {
  const lead = flight.formation?.lead ?? null;
  return lead !== null && !hangsFor(flight, lead);
}
