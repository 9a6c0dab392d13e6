import { METRES_PER_FOOT, METRES_PER_NAUTICAL_MILE, METRES_PER_STATUTE_MILE } from '../units/quantity.ts';

/** Knots in one of a unit of speed, as people and files write it; null for none that is known. */
export function knotsPer(unit: string): number | null {
  switch (unit.trim().toLowerCase().replace(/\s|\./g, '')) {
    case 'kt':
    case 'kts':
    case 'kn':
    case 'knot':
    case 'knots':
      return 1;
    case 'm/s':
    case 'ms':
    case 'mps':
    case 'ms-1':
      return 3600 / METRES_PER_NAUTICAL_MILE;
    case 'km/h':
    case 'kmh':
    case 'kph':
      return 1000 / METRES_PER_NAUTICAL_MILE;
    case 'mph':
    case 'mp/h':
      return METRES_PER_STATUTE_MILE / METRES_PER_NAUTICAL_MILE;
    default:
      return null;
  }
}

/** Feet in one of a unit of height; null for none that is known. */
export function feetPer(unit: string): number | null {
  switch (unit.trim().toLowerCase()) {
    case 'ft':
    case 'feet':
    case 'foot':
      return 1;
    case 'm':
    case 'metre':
    case 'metres':
    case 'meter':
    case 'meters':
    case 'gpm':
      return 1 / METRES_PER_FOOT;
    case 'km':
      return 1000 / METRES_PER_FOOT;
    case 'fl':
      return 100;
    default:
      return null;
  }
}
