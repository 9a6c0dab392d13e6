import { feetFromMetres, metresFromFeet } from '../units/quantity.ts';
import type { Flight } from './guidance-state.ts';
import { watchedAsNow } from './watched-as-now.ts';

/** Worth a word, and too far to write: the client's figures. Receivers differ from the sea's level by up to 50 m (their ellipsoid). */
const CAUTION_METRES = metresFromFeet(300);
const REFUSED_METRES = metresFromFeet(1000);

/** How far above the layer the ship flies, by the receiver; null where it gives no height, or is near enough. */
export function offLayer({ altitudeMetres, setup, formation }: Flight): { readonly aboveMetres: number; readonly refused: boolean } | null {
  if (altitudeMetres === null || !watchedAsNow(setup)) return null;
  // Joining and leaving, a ship of a formation has heights of its own.
  if (formation !== null && formation.part !== 'timetable') return null;
  const aboveMetres = altitudeMetres - setup.layerHeightMetres;
  if (!(Math.abs(aboveMetres) > CAUTION_METRES)) return null;
  return { aboveMetres, refused: Math.abs(aboveMetres) > REFUSED_METRES };
}

/**
 * In words that are logged and read everywhere, so in both units: `400 ft (120 m) above the layer`; 1,000 ft are 304.8 m by the foot of
 * the ICAO's Annex 5.
 */
export function offLayerWords({ aboveMetres }: { readonly aboveMetres: number }): string {
  const off = Math.abs(aboveMetres);
  return `${Math.round(feetFromMetres(off) / 100) * 100} ft (${Math.round(off / 10) * 10} m) ${aboveMetres > 0 ? 'above' : 'below'} the layer`;
}
