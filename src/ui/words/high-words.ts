import { formatNumber } from '../../core/text/number-formats.ts';
import { degreesFromRadians } from '../../core/units/angle.ts';

/** `34° high`; of what the eye cannot see `below the horizon`, since nobody looks there for minus one degree. */
export function highWords(elevationRadians: number): string {
  return elevationRadians < 0 ? 'below the horizon' : `${formatNumber(degreesFromRadians(elevationRadians))}° high`;
}
