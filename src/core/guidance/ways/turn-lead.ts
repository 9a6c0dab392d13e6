import type { Flight } from '../guidance-state.ts';

/**
 * Seconds that a turn is cued ahead of where it is to begin: the pilot's reaction, and half the roll into the bank,
 * since the turn builds up while the aircraft rolls. A reaction of 0.5 s and 30 degrees at 45 a second: 0.83 s.
 */
export function turnLeadSeconds({
  hands,
  setup,
}: { readonly hands: Pick<Flight['hands'], 'turnReactionSeconds'> } & {
  readonly setup: Pick<Flight['setup'], 'turningBankRadians' | 'rollRateRadiansPerSecond'>;
}): number {
  return hands.turnReactionSeconds + setup.turningBankRadians / setup.rollRateRadiansPerSecond / 2;
}
