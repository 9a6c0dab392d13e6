import type { FlightSetup } from './flight-setup.ts';

/**
 * Whether an aircraft is watched as today: it may do otherwise than was cued, gusts are expected, strokes are held over short
 * losses, its height is compared with the layer's. Logs of before say neither and are flown again as they were; what was told
 * by `hanging` alone left out the ships of a formation, and one fix in thousands that was no jump blanked a ship for good.
 */
export function watchedAsNow({ version, hanging }: Pick<FlightSetup, 'version' | 'hanging'>): boolean {
  return version === 2 || hanging !== undefined;
}
